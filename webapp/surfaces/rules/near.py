"""What lies near a spot of a surface, nearest first: exact distances from the spot to the edge of each thing."""

from dataclasses import dataclass
from fractions import Fraction
from math import isqrt

from webapp.surfaces.rules.elevation import Facts, standing
from webapp.surfaces.rules.extent import Bar, Box, Shape, run_shapes, thing_shapes
from webapp.surfaces.rules.face import Point, Run, Thing
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.values.length import NM_PER_INCH, NM_PER_MM, UNITS

HAND_NM = {unit: 4 * NM_PER_INCH if unit in {"ft-in", "in"} else 100 * NM_PER_MM for unit in UNITS}
"""a hand's breadth as this program answers for it: 4 in, the hand by which horses are measured; 100 mm in metric"""
SLANT = 4
"""a way that is this many times as long as it is high is called by its length alone"""


@dataclass(frozen=True, slots=True)
class Gap:
    """From a spot to the nearest point of a shape: the way there, and how far its edge is, to the nanometre."""

    squared: Fraction
    half_nm: int
    dx: Fraction
    dy: Fraction

    @property
    def distance_nm(self) -> int:
        """To the edge, rounded to the nearest nanometre; 0 on the thing itself."""
        whole, part = self.squared.numerator * 4, self.squared.denominator
        return max(0, (isqrt(whole // part) + 1) // 2 - self.half_nm)

    def within(self, reach_nm: int) -> bool:
        """Whether the edge is within reach; exact, nothing is rounded."""
        return self.squared <= (reach_nm + self.half_nm) ** 2


def gap(spot: Point, shape: Shape) -> Gap:
    if isinstance(shape, Bar):
        return _to_bar(spot, shape)
    return _to_box(spot, shape)


def _to_bar(spot: Point, bar: Bar) -> Gap:
    """To the foot of the perpendicular, or to the nearer end."""
    (x1, y1), (x2, y2) = bar.start, bar.end
    along, up = x2 - x1, y2 - y1
    long = along * along + up * up
    part = Fraction((spot[0] - x1) * along + (spot[1] - y1) * up, long) if long else Fraction(0)
    part = max(Fraction(0), min(Fraction(1), part))
    dx, dy = x1 + part * along - spot[0], y1 + part * up - spot[1]
    return Gap(dx * dx + dy * dy, bar.half_nm, dx, dy)


def _to_box(spot: Point, box: Box) -> Gap:
    dx = Fraction(max(box.left, min(box.right, spot[0])) - spot[0])
    dy = Fraction(max(box.low, min(box.high, spot[1])) - spot[1])
    return Gap(dx * dx + dy * dy, 0, dx, dy)


@dataclass(frozen=True, slots=True)
class Hit:
    """Something on record and how far it is from the spot."""

    found: Thing | Run
    gap: Gap

    @property
    def order(self) -> tuple[int, bool, str, int]:
        return self.gap.distance_nm, isinstance(self.found, Thing), self.found.tag, self.found.id


def hits(facts: Facts, spot: Point, *, replaced: bool = False) -> tuple[Hit, ...]:
    """All of the surface, nearest first: what is there, or, with `replaced`, what was moved or replaced since."""
    left = standing(facts)
    things = [thing for thing in facts.things if thing.replaced] if replaced else left.things
    runs = [run for run in facts.runs if run.replaced] if replaced else left.runs
    found = [_hit(spot, thing, thing_shapes(facts, thing)) for thing in things]
    found += [_hit(spot, run, run_shapes(run)) for run in runs]
    return tuple(sorted((hit for hit in found if hit is not None), key=lambda hit: hit.order))


def _hit(spot: Point, found: Thing | Run, shapes: tuple[Shape, ...]) -> Hit | None:
    gaps = [gap(spot, shape) for shape in shapes]
    return Hit(found, min(gaps, key=lambda one: (one.distance_nm, one.squared))) if gaps else None


WAYS = {
    SurfaceKind.TRENCH: ("left", "right", "deeper", "shallower"),
    SurfaceKind.CEILING: ("left", "right", "down the plan", "up the plan"),
}
"""to the left and right, more and less of the second measure; on a plan that one runs downwards"""
WAYS[SurfaceKind.FLOOR] = WAYS[SurfaceKind.SLAB] = WAYS[SurfaceKind.CEILING]
UPRIGHT_WAYS = ("left", "right", "up", "down")


def direction(kind: SurfaceKind, gap: Gap) -> str:
    """`left`, `up`, `up and to the left`; `here` on the thing itself."""
    if gap.distance_nm == 0:
        return "here"
    left, right, more, less = WAYS.get(kind, UPRIGHT_WAYS)
    along, up = (left if gap.dx < 0 else right), (less if gap.dy < 0 else more)
    if abs(gap.dx) >= SLANT * abs(gap.dy):
        return along
    if abs(gap.dy) >= SLANT * abs(gap.dx):
        return up
    return f"{up} and to the {along}"
