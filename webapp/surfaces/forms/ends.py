"""What is typed about the ends of a run: the things it begins and ends at, and the stretch it goes on from."""

from collections.abc import Sequence
from dataclasses import dataclass

from webapp.core.forms import Reader
from webapp.surfaces.rules.ways import is_near
from webapp.surfaces.store import ItemFacts, LineFacts, RunFacts, SurfaceFacts
from webapp.values.length import field_length

Point = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Ends:
    """Ids, None where nothing was chosen."""

    from_item_id: int | None
    to_item_id: int | None
    continues_id: int | None


@dataclass(frozen=True, slots=True)
class Around:
    """What a run is checked against: all things and runs of the build; `own`: what is on record of it, if anything."""

    surface: SurfaceFacts
    items: Sequence[ItemFacts]
    runs: Sequence[RunFacts]
    own: RunFacts | None

    @property
    def own_id(self) -> int:
        return self.own.id if self.own is not None else 0


def read_ends(reader: Reader, around: Around, line: LineFacts | None, points: Sequence[Point], unit: str) -> Ends:
    """Whether they can be so is said beside each field; where a run does not reach its thing, beside its bends."""
    items = {str(item.id): item for item in around.items}
    runs = {str(run.id): run for run in around.runs if run.surface_id != around.surface.id}
    begins = items.get(reader.one_of("from_item", tuple(items)))
    ends = items.get(reader.one_of("to_item", tuple(items)))
    before = runs.get(reader.one_of("goes_on", tuple(runs)))
    if begins is not None and begins is ends:
        reader.wrong("to_item", "It begins there. Choose the thing at its other end, or none while it is not known.")
    if before is not None:
        _check_before(reader, around, line, before)
    if points and "points" not in reader.errors:
        goes_on = any(run.continues_id == around.own_id and run.replaced_on is None for run in around.runs)
        _check_reach(reader, around.surface, None if before else begins, points[0], "first", unit)
        _check_reach(reader, around.surface, None if around.own and goes_on else ends, points[-1], "last", unit)
    return Ends(*(one.id if one is not None else None for one in (begins, ends, before)))


def _check_before(reader: Reader, around: Around, line: LineFacts | None, before: RunFacts) -> None:
    if line is None or line.id != before.line_id:
        theirs = f"of {before.line}" if before.line else "of no line"
        own = f"of {line.code}" if line is not None else "of none yet"
        reader.wrong("goes_on", f"That stretch is {theirs}, this one {own}. A run goes on in its own circuit or line.")
    known, seen = {run.id: run for run in around.runs}, {around.own_id}
    step: RunFacts | None = before
    while step is not None and step.id not in seen:
        seen.add(step.id)
        step = known.get(step.continues_id or 0)
    if step is not None and step.id == around.own_id:
        reader.wrong("goes_on", "That stretch goes on from this one already, so this one cannot go on from it.")


def _check_reach(
    reader: Reader, surface: SurfaceFacts, item: ItemFacts | None, point: Point, which: str, unit: str
) -> None:
    if item is None or item.surface_id != surface.id or item.x_nm is None or item.y_nm is None:
        return
    if not is_near(point, item.x_nm, item.y_nm, item.width_nm):
        place = f"{field_length(item.x_nm, unit)}; {field_length(item.y_nm, unit)}"
        verb = "begins" if which == "first" else "ends"
        reader.wrong(
            "points",
            f"The {which} line is not at “{item.label}”, where this run {verb}. That is at {place}: write it as the "
            f"{which} line, or choose another thing.",
        )
