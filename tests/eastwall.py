"""The east wall on the evening before board (scenario "The evening before board"), as rows to start from.

Rough electrical and insulation have passed, one small item is open on my word, pictures 6 and 7 and one must-film
shot are owed, four boxes are counted. Board closes the wall; mud and tape come after it.
"""

from dataclasses import dataclass
from datetime import UTC, date, datetime

from sqlmodel import Session

from tests import builders
from webapp.footage.models import Shot
from webapp.inspections.models import Correction, Inspection, Permit, Result, Visit
from webapp.photos.models import Photo
from webapp.plan.models import Build, Phase, Task
from webapp.surfaces.models import PictureSlot, ShotSurface, Surface

PICTURES = ("whole wall", "left half", "right half", "receptacles", "switch box", "drain and supply", "duct sleeve")


@dataclass(frozen=True)
class EastWall:
    """Every row of it that a test may want to change."""

    surface: Surface
    phase: Phase
    board: Task
    mud: Task
    permit: Permit
    electrical: Inspection
    electrical_visit: Visit
    passed: Result
    insulation: Inspection
    framing: Inspection
    framing_visit: Visit
    correction: Correction
    slots: list[PictureSlot]
    shot: Shot


def a_photo(session: Session, number: int, taken_at: str | None = "2026-05-14T18:00:00") -> Photo:
    """A picture on record; its bytes are nowhere."""
    row = Photo(
        sha256=f"{number:064x}",
        media_type="image/jpeg",
        size=1,
        width=4,
        height=3,
        taken_at=taken_at,
        taken_from="camera" if taken_at else "unknown",
        received_at=datetime(2026, 5, 14, 17, tzinfo=UTC),
        made="ready",
    )
    return builders.kept(session, row)


def _slots(session: Session, surface: Surface, filled: int) -> list[PictureSlot]:
    made = []
    for number, what in enumerate(PICTURES, 1):
        photo = a_photo(session, number) if number <= filled else None
        more = {"photo_id": photo.row_id, "filled_at": photo.received_at} if photo else {}
        picture_set = "after" if number > filled else "before"
        made.append(builders.a_slot(session, surface, number, what=what, picture_set=picture_set, **more))
    return made


def _plan(session: Session, build: Build, surface: Surface) -> tuple[Phase, Task, Task]:
    phase = builders.a_phase(session, build, "Board", position=2)
    board = builders.a_task(session, phase, "Hang the board, east", kind="board")
    mud = builders.a_task(session, phase, "Mud and tape", position=2)
    builders.a_need(session, mud, board)
    builders.works_on(session, board, surface, closes=True)
    return phase, board, mud


def an_east_wall(session: Session, build: Build, filled: int = 5) -> EastWall:
    surface = builders.a_surface(session, build, boxes_before=4, needs_count=True, closed_by="board")
    phase, board, mud = _plan(session, build, surface)
    permit = builders.a_permit(session, build)
    kinds = [
        builders.an_inspection(session, permit, name, (surface,), position=at)
        for at, name in enumerate(("Rough electrical", "Framing", "Insulation"), 1)
    ]
    days = (date(2026, 5, 7), date(2026, 5, 13), date(2026, 5, 15))
    visits = [builders.a_visit(session, kind, day) for kind, day in zip(kinds, days, strict=True)]
    said = ("passed", "passed, small items on my honour", "passed")
    results = [builders.a_result(session, visit, surface, kind) for visit, kind in zip(visits, said, strict=True)]
    words = "Seal the hole in the plate"
    correction = builders.a_correction(session, visits[1], results[1], words=words, clears_by="own word")
    shot = builders.a_shot(session, build, board, what="Sealing the duct sleeve")
    builders.kept(session, ShotSurface(shot_id=shot.row_id, surface_id=surface.row_id))
    return EastWall(
        surface=surface,
        phase=phase,
        board=board,
        mud=mud,
        permit=permit,
        electrical=kinds[0],
        electrical_visit=visits[0],
        passed=results[0],
        insulation=kinds[2],
        framing=kinds[1],
        framing_visit=visits[1],
        correction=correction,
        slots=_slots(session, surface, filled),
        shot=shot,
    )
