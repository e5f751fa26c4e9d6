"""What is typed about openings and runs, read in the build's own unit."""

from collections.abc import Iterable
from functools import partial

from webapp.core.forms import Reader, Submitted
from webapp.plan.guard import Here
from webapp.surfaces.actions import OpeningDraft, RunDraft, points_text
from webapp.surfaces.forms.ends import Around, read_ends
from webapp.surfaces.forms.places import read_line
from webapp.surfaces.rules.fitting import opening_wrong, run_wrong
from webapp.surfaces.rules.kinds import SERVICES, OpeningKind
from webapp.surfaces.store import LineFacts, OpeningFacts, SurfaceFacts
from webapp.values.errors import BadInput
from webapp.values.length import parse_length

LONGEST_RUN = 60
"""bends of one stretch"""


def _size(text: str, unit: str) -> int:
    length = parse_length(text, unit)
    if length <= 0:
        raise BadInput("A size is more than zero.")
    return length


def read_opening(sent: Submitted, here: Here, surface: SurfaceFacts, others: Iterable[OpeningFacts]) -> OpeningDraft:
    """An opening that lies in its surface and in no other opening. Raises BadForm."""
    reader, unit = Reader(sent), here.build.unit
    place, size = partial(parse_length, unit=unit), partial(_size, unit=unit)
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
        along, up = (parse_length(part.strip(), unit) for part in parts)
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
        standing = [one for one in openings if one.removed_on is None]
        wrong = run_wrong(surface.kind, surface.length_nm, surface.height_nm, points, standing, unit)
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
