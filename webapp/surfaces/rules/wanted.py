"""What the list of pictures of a surface is made from, and one picture of it."""

from dataclasses import dataclass

from webapp.surfaces.rules.kinds import SurfaceKind

MUST, WISH = "must", "wish"
BEFORE, AFTER = "before", "after"


@dataclass(frozen=True, slots=True)
class Hidden:
    """A thing that is on the surface now; `tag` is empty where it has no offsets, `x_nm` None then."""

    id: int
    tag: str
    label: str
    kind: str
    service: str
    is_box: bool
    x_nm: int | None

    @property
    def named(self) -> str:
        return self.tag or self.label


@dataclass(frozen=True, slots=True)
class OnSurface:
    """What a surface is and all that is on it now. `services` and `lines`: of its runs."""

    kind: SurfaceKind
    length_nm: int | None
    unit: str
    origin: str = ""
    far: str = ""
    things: tuple[Hidden, ...] = ()
    services: frozenset[str] = frozenset()
    lines: frozenset[str] = frozenset()
    openings: tuple[tuple[int, str, str], ...] = ()
    """id, kind, name"""
    ties: tuple[tuple[int, str, str, str], ...] = ()
    """id, name of the point, the two fixed points"""

    def of_kind(self, kinds: set[str]) -> tuple[Hidden, ...]:
        return tuple(thing for thing in self.things if thing.kind in kinds)

    @property
    def present(self) -> frozenset[str]:
        """Services that run on it, or that something on it belongs to."""
        return self.services | {thing.service for thing in self.things}


@dataclass(frozen=True, slots=True)
class OwedPicture:
    """One picture: `key` stays, `signs` are words that in a builder's own line say the same. `names`: what it is of,
    for a short list. `place`, `places`: which of several side by side it is, from the first, 0 when it stands alone."""

    key: str
    what: str
    strength: str = MUST
    picture_set: str = BEFORE
    item_id: int | None = None
    signs: tuple[str, ...] = ()
    names: str = ""
    place: int = 0
    places: int = 0

    @property
    def named(self) -> str:
        return self.names or f"{self.what[:1].lower()}{self.what[1:]}"
