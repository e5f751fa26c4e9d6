"""What is typed about openings and runs, read in the build's own unit."""

from collections.abc import Iterable
from functools import partial

from webapp.core.forms import Reader, Submitted
from webapp.plan.guard import Here
from webapp.surfaces.actions import OpeningDraft, RunDraft, points_text
from webapp.surfaces.forms.ends import Around, read_ends
from webapp.surfaces.forms.places import holes_in, place_of, read_line, size_of
from webapp.surfaces.rules.fitting import opening_holds, opening_wrong, run_wrong
from webapp.surfaces.rules.kinds import SERVICES, OpeningKind
from webapp.surfaces.rules.tagging import runs_of, things_of
from webapp.surfaces.store import ItemFacts, LineFacts, OpeningFacts, RunFacts, SurfaceFacts
from webapp.values.errors import BadInput

LONGEST_RUN = 60
"""bends of one stretch"""


def read_opening(
    sent: Submitted,
    here: Here,
    surface: SurfaceFacts,
    others: Iterable[OpeningFacts],
    items: Iterable[ItemFacts],
    runs: Iterable[RunFacts],
) -> OpeningDraft:
    """An opening that lies in its surface, in no other opening, and over nothing hidden. Raises BadForm.

    All three are those of the same surface. A sleeve may be cut where a pipe or duct goes through it.
    """
    reader, unit = Reader(sent), here.build.unit
    place, size = partial(place_of, unit=unit), partial(size_of, unit=unit)
    draft = OpeningDraft(
        kind=reader.one_of("kind", tuple(OpeningKind), OpeningKind.WINDOW.value),
        name=reader.text("name", "Give it a name, such as South window.", most=80),
        x_nm=reader.parsed("x", place, "How far its left edge is from the corner.") or 0,
        y_nm=reader.parsed("y", place, "How high its lower edge is; 0 for a door.") or 0,
        width_nm=reader.parsed("width", size, "How wide it is, rough.") or 0,
        height_nm=reader.parsed("height", size, "How high it is, rough.") or 0,
    )
    if not reader.errors:
        standing = [one for one in others if one.removed_on is None]
        wrong = opening_wrong(surface.kind, surface.length_nm, surface.height_nm, draft, standing, unit)
        for field, sentence in wrong.items():
            reader.wrong(field, sentence)
        held = "" if draft.kind == OpeningKind.SLEEVE else opening_holds(draft, things_of(items), runs_of(runs))
        if held:
            reader.wrong("x", held)
    reader.done()
    return draft


def read_points(text: str, unit: str) -> tuple[tuple[int, int], ...]:
    """One bend a line: along, then up, with a semicolon between or, where no length has one, a comma.

    Raises BadInput with the number of the line.
    """
    lines = [line.strip() for line in text.splitlines() if line.strip()]
    if len(lines) > LONGEST_RUN:
        raise BadInput(f"At most {LONGEST_RUN} bends; write the rest as another run.")
    return tuple(_point(number, line, unit) for number, line in enumerate(lines, 1))


def _point(number: int, line: str, unit: str) -> tuple[int, int]:
    parts = line.split(";" if ";" in line else ",")
    if len(parts) != len(("along", "up")):
        raise BadInput(f"Line {number}: write two lengths with a semicolon between, such as 20 1/2; 60.")
    try:
        along, up = (place_of(part.strip(), unit) for part in parts)
    except BadInput as bad:
        raise BadInput(f"Line {number}: {bad.sentence}") from None
    return along, up


def read_run(
    sent: Submitted, here: Here, around: Around, openings: Iterable[OpeningFacts], lines: Iterable[LineFacts]
) -> RunDraft:
    """A run that stays on its surface, goes around its openings and reaches the things at its ends. Raises BadForm."""
    reader, unit, surface = Reader(sent), here.build.unit, around.surface
    line = read_line(reader, lines)
    points = reader.parsed("points", partial(read_points, unit=unit), "Write where it bends, one bend a line.") or ()
    if "points" not in reader.errors:
        wrong = run_wrong(surface.kind, surface.length_nm, surface.height_nm, points, holes_in(openings), unit)
        if wrong:
            reader.wrong("points", wrong)
    ends = read_ends(reader, around, line, points, unit)
    draft = RunDraft(
        label=reader.text("label", "Say what it is, such as 12-2 to the bench.", most=120),
        line_id=line.id if line else None,
        service=line.service if line else reader.one_of("service", SERVICES, "electric"),
        points=points_text(points),
        note=reader.text("note", most=300),
        from_item_id=ends.from_item_id,
        to_item_id=ends.to_item_id,
        continues_id=ends.continues_id,
    )
    reader.done()
    return draft
