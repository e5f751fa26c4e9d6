"""Rows for tests: functions with good defaults; say only what the test is about. Each adds, flushes and returns."""

import io
import json
import secrets
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TypeVar

from sqlmodel import Session, SQLModel

from tests import pictures
from webapp.accounts.guard import hash_token
from webapp.accounts.models import Owner, SignIn
from webapp.core.clock import now
from webapp.episodes.models import Episode
from webapp.footage.models import Shot
from webapp.inspections.models import (
    ClosedDay,
    Correction,
    Fee,
    Inspection,
    InspectionSurface,
    Office,
    Permit,
    PermitExtension,
    PermitRule,
    Result,
    Visit,
)
from webapp.money.models import Spend
from webapp.photos import files
from webapp.photos.actions import keep_photo, mark_made
from webapp.photos.models import Photo
from webapp.plan.models import Build, Need, Phase, Task
from webapp.surfaces.models import (
    Item,
    Opening,
    PicturePlace,
    PictureSlot,
    Question,
    Run,
    ServiceLine,
    Surface,
    TaskSurface,
)
from webapp.voice.models import VoiceNote
from webapp.workdays.models import Workday

AT = datetime(2026, 5, 16, 9, 0, tzinfo=UTC)
INCH = 25_400_000
Row = TypeVar("Row", bound=SQLModel)


def kept(session: Session, row: Row) -> Row:
    session.add(row)
    session.flush()
    return row


def a_sign_in(session: Session, name: str = "the builder") -> str:
    """An owner with a sign-in; returns the cookie's value."""
    token = secrets.token_urlsafe(32)
    owner = kept(session, Owner(name=name, password_hash="not used here", made_at=AT))
    kept(
        session,
        SignIn(owner_id=owner.row_id, token_hash=hash_token(token), device="test", begun_at=now(), seen_at=now()),
    )
    return token


def a_build(session: Session, name: str = "Bindery", **more: object) -> Build:
    values = {"slug": name.lower(), "name": name, "what": "A garage becoming a bindery", "made_at": AT} | more
    return kept(session, Build(**values))


def a_phase(session: Session, build: Build, title: str = "Board", position: int = 1, **more: object) -> Phase:
    return kept(session, Phase(build_id=build.row_id, title=title, position=position, **more))


def a_task(session: Session, phase: Phase, title: str = "Hang the board", position: int = 1, **more: object) -> Task:
    values = {"kind": "board", "build_id": phase.build_id, "phase_id": phase.row_id} | more
    return kept(session, Task(title=title, position=position, **values))


def a_need(session: Session, task: Task, needed: Task, **more: object) -> Need:
    """`task` needs `needed` to be done first."""
    return kept(
        session,
        Need(
            build_id=task.build_id,
            what_kind="task",
            what_id=task.row_id,
            needs_kind="task",
            needs_id=needed.row_id,
            **more,
        ),
    )


def a_surface(session: Session, build: Build, code: str = "E", name: str = "East wall", **more: object) -> Surface:
    values = {"position": 1, "kind": "wall", "length_nm": 161 * INCH, "height_nm": 108 * INCH, "facing": "E"} | more
    return kept(session, Surface(build_id=build.row_id, code=code, name=name, **values))


def works_on(session: Session, task: Task, surface: Surface, closes: bool = False) -> TaskSurface:
    return kept(session, TaskSurface(task_id=task.row_id, surface_id=surface.row_id, closes=closes))


def an_item(session: Session, surface: Surface, label: str = "Receptacle", **more: object) -> Item:
    values = {"kind": "receptacle", "service": "electric", "x_nm": 14 * INCH, "y_nm": 16 * INCH} | more
    return kept(session, Item(surface_id=surface.row_id, label=label, **values))


def a_line(session: Session, build: Build, code: str = "C01", **more: object) -> ServiceLine:
    values = {"name": "Bench receptacles", "position": 1, "breaker_a": 20, "cable": "12-2"} | more
    return kept(session, ServiceLine(build_id=build.row_id, code=code, **values))


def an_opening(session: Session, surface: Surface, name: str = "Window", **more: object) -> Opening:
    values = {"x_nm": 48 * INCH, "y_nm": 36 * INCH, "width_nm": 36 * INCH, "height_nm": 48 * INCH} | more
    return kept(session, Opening(surface_id=surface.row_id, name=name, **values))


def a_run(session: Session, surface: Surface, *points: tuple[int, int], **more: object) -> Run:
    """`points` in inches from the corner and above the floor."""
    values = {"label": "12-2 to the bench", "service": "electric"} | more
    bends = json.dumps([[x * INCH, y * INCH] for x, y in points or ((14, 30), (60, 30))])
    return kept(session, Run(surface_id=surface.row_id, points=bends, **values))


def a_slot(session: Session, surface: Surface, number: int = 1, **more: object) -> PictureSlot:
    values = {"what": "Whole wall, tape in it", "position": number} | more
    return kept(session, PictureSlot(surface_id=surface.row_id, number=number, **values))


def a_question(session: Session, build: Build, surface: Surface | None = None, **more: object) -> Question:
    values = {"words": "Can a screw reach the cable?", "kind": "danger", "asked_on": date(2026, 5, 8)} | more
    return kept(session, Question(build_id=build.row_id, surface_id=surface and surface.row_id, **values))


def a_photo(session: Session, sha256: str = "", **more: object) -> Photo:
    """A picture's row without its file; of unknown date unless `taken_at` is given."""
    values = {"media_type": "image/jpeg", "size": 1000, "width": 800, "height": 600, "received_at": AT} | more
    if "taken_at" in more:
        values = {"taken_from": "camera"} | values
    return kept(session, Photo(sha256=sha256 or secrets.token_hex(32), **values))


def a_shot(session: Session, build: Build, task: Task | None = None, **more: object) -> Shot:
    values = {"what": "East open, slow pan with tape", "once": True, "strength": "must"} | more
    return kept(session, Shot(build_id=build.row_id, task_id=task and task.row_id, **values))


def a_permit(session: Session, build: Build, code: str = "ELE", **more: object) -> Permit:
    """Lapsing `lapse_days` after the last approved visit (None: no such rule), as `rule_source` says."""
    days, source = more.pop("lapse_days", 180), more.pop("rule_source", "my guess")
    values = {"name": "Electrical permit", "issued_on": date(2025, 8, 29)} | more
    permit = kept(session, Permit(build_id=build.row_id, code=code, **values))
    if days is not None:
        a_rule(session, permit, count=days, source=source)
    return permit


def a_rule(session: Session, permit: Permit, kind: str = "no approved visit", **more: object) -> PermitRule:
    values = {"count": 180, "span": "days"} | more
    return kept(session, PermitRule(permit_id=permit.row_id, kind=kind, **values))


def an_office(session: Session, build: Build, name: str = "Building inspections", **more: object) -> Office:
    """Comes on Tuesday and Thursday, two working days of notice by 15:30."""
    values = {"weekdays": "2,4", "notice_days": 2, "ask_by": "15:30"} | more
    return kept(session, Office(build_id=build.row_id, name=name, **values))


def a_closed_day(session: Session, build: Build, day: date, office: Office | None = None, **more: object) -> ClosedDay:
    return kept(session, ClosedDay(build_id=build.row_id, day=day, office_id=office and office.row_id, **more))


def an_extension(session: Session, permit: Permit, **more: object) -> PermitExtension:
    """Asked for and not answered."""
    values = {"asked_on": date(2026, 5, 10), "why": "The window came late", "at": AT} | more
    return kept(session, PermitExtension(permit_id=permit.row_id, **values))


def an_inspection(
    session: Session, permit: Permit, name: str = "Rough electrical", surfaces: tuple[Surface, ...] = (), **more: object
) -> Inspection:
    values = {"position": 1, "code": name.upper().replace(" ", "")[:10]} | more
    made = kept(session, Inspection(build_id=permit.build_id, permit_id=permit.row_id, name=name, **values))
    for surface in surfaces:
        kept(session, InspectionSurface(inspection_id=made.row_id, surface_id=surface.row_id))
    return made


def a_visit(session: Session, inspection: Inspection, day: date = date(2026, 5, 7), **more: object) -> Visit:
    values = {"outcome": "came", "day": day} | more
    return kept(session, Visit(build_id=inspection.build_id, inspection_id=inspection.row_id, **values))


def a_result(
    session: Session, visit: Visit, surface: Surface | None = None, kind: str = "passed", **more: object
) -> Result:
    values = {
        "visit_id": visit.row_id,
        "inspection_id": visit.inspection_id,
        "surface_id": surface and surface.row_id,
        "day": visit.day,
        "recorded_at": AT,
    } | more
    return kept(session, Result(kind=kind, **values))


def a_correction(session: Session, visit: Visit, result: Result, **more: object) -> Correction:
    values = {"number": 1, "words": "Plates on three studs", "surface_id": result.surface_id} | more
    return kept(session, Correction(build_id=visit.build_id, result_id=result.row_id, **values))


def a_fee(session: Session, permit: Permit, visit: Visit | None = None, **more: object) -> Fee:
    values = {"amount_cents": 10_000, "stops_visits": True, "visit_id": visit and visit.row_id} | more
    return kept(session, Fee(build_id=permit.build_id, permit_id=permit.row_id, **values))


def a_spend(session: Session, build: Build, what: str = "Board, 30 sheets", **more: object) -> Spend:
    values = {"day": date(2026, 5, 9), "total_cents": 59_616, "at": AT} | more
    return kept(session, Spend(build_id=build.row_id, what=what, **values))


def a_workday(session: Session, build: Build, day: date = date(2026, 5, 9), **more: object) -> Workday:
    values = {"own_min": 330, "done": "Plates on the east wall", "logged_at": AT} | more
    return kept(session, Workday(build_id=build.row_id, day=day, **values))


def a_voice_note(session: Session, build: Build, **more: object) -> VoiceNote:
    """A note's row without its sound."""
    values = {"sha256": secrets.token_hex(32), "media_type": "audio/webm", "size": 1000, "received_at": AT} | more
    return kept(session, VoiceNote(build_id=build.row_id, **values))


def an_episode(session: Session, build: Build, number: int = 1, **more: object) -> Episode:
    """In the making, from 1 May 2026 on."""
    values = {"from_day": date(2026, 5, 1)} | more
    return kept(session, Episode(build_id=build.row_id, number=number, **values))


def a_picture(session: Session, build: Build, photos: Path, body: bytes = b"", **more: object) -> int:
    """A kept picture of the build with its copies made, taken on 9 May 2026; gives its id."""
    body = body or pictures.a_jpeg(taken="2026:05:09 17:48:00")
    found = keep_photo(session, photos, io.BytesIO(body), "IMG_1234.JPG", 30, AT)
    files.make_derived(photos, found.sha256)
    mark_made(session, found.sha256, "ready")
    kept(session, PicturePlace(build_id=build.row_id, photo_id=found.photo_id, placed_at=AT, **more))
    return found.photo_id


def looked_at(session: Session, build: Build, surface: Surface, name: str = "Shell") -> Result:
    """An inspection that names this surface has passed on it: without one its closing rests on nothing."""
    permit = a_permit(session, build, code=f"P{surface.row_id}")
    inspection = an_inspection(session, permit, name, (surface,), code=f"{name[:8].upper()}{surface.row_id}")
    return a_result(session, a_visit(session, inspection), surface)
