"""Makes a large build: tasks with needs, surfaces, visits, results, pictures and spend, in the shape real ones have."""

import random
from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from typing import Any

from sqlalchemy import insert, text
from sqlmodel import Session, SQLModel

from tests import builders
from tests.benchmarks.wall import a_full_wall
from webapp.core.database import Database
from webapp.money.models import Spend
from webapp.photos.models import Photo
from webapp.plan.models import Build, Need, Phase, Task
from webapp.surfaces.models import PicturePlace, PictureSlot, Surface, TaskSurface
from webapp.workdays.models import Workday

PHASES = 13
SURFACES = 24
FIRST = date(2025, 8, 29)
AT = datetime(2026, 5, 1, tzinfo=UTC)
KINDS = ("framing", "wiring", "plumbing", "insulation", "board", "finishing", "concrete", "digging")


def bulk(session: Session, table: type[SQLModel], rows: Iterator[dict[str, Any]] | list[dict[str, Any]]) -> None:
    session.execute(insert(table), list(rows))


def task_rows(build_id: int, count: int, drawn: random.Random) -> Iterator[dict[str, Any]]:
    """The first six tenths are done, as in a build half way through; the rest is open."""
    for number in range(1, count + 1):
        done = number < count * 0.6
        low = drawn.choice((60, 90, 120, 240))
        yield {
            "id": number,
            "build_id": build_id,
            "phase_id": 1 + (number - 1) * PHASES // count,
            "position": number,
            "title": f"Job {number}, {drawn.choice(KINDS)}",
            "kind": drawn.choice(KINDS),
            "low_min": low,
            "likely_min": low * 2,
            "high_min": low * 3,
            "who": drawn.choices(("self", "helper", "hired"), (8, 1, 1))[0],
            "wait_days": drawn.choices((0, 2, 7), (18, 1, 1))[0],
            "state": "done" if done else "not started",
            "started_on": FIRST + timedelta(days=number % 200) if done else None,
            "done_on": FIRST + timedelta(days=number % 200) if done else None,
        }


def need_rows(build_id: int, tasks: int, needs: int, drawn: random.Random) -> Iterator[dict[str, Any]]:
    """Each need points to an earlier task, mostly a near one, so that there is no loop."""
    made: set[tuple[int, int]] = set()
    while len(made) < needs:
        what = drawn.randint(2, tasks)
        needed = max(1, what - drawn.randint(1, 40))
        if (what, needed) not in made and what != needed:
            made.add((what, needed))
            yield {"build_id": build_id, "what_kind": "task", "what_id": what, "needs_kind": "task", "needs_id": needed}


def photo_rows(count: int) -> Iterator[dict[str, Any]]:
    for number in range(1, count + 1):
        day = FIRST + timedelta(days=number % 250)
        yield {
            "id": number,
            "sha256": f"{number:064x}",
            "media_type": "image/jpeg",
            "size": 3_700_000,
            "width": 4032,
            "height": 3024,
            "taken_at": f"{day}T12:00:00",
            "taken_from": "camera",
            "received_at": AT,
            "made": "ready",
        }


def fill(database: Database, tasks: int, needs: int, photos: int, spend: int) -> tuple[str, str]:
    """Fill an empty record; returns the build's slug and the cookie of its owner."""
    drawn = random.Random(tasks)
    with database.writing() as session:
        token = builders.a_sign_in(session)
        build: Build = builders.a_build(session)
        for number in range(1, PHASES + 1):
            session.add(Phase(id=number, build_id=build.row_id, position=number, title=f"Phase {number}"))
        surfaces: list[Surface] = [
            builders.a_surface(session, build, code=f"S{number}", name=f"Surface {number}", position=number)
            for number in range(1, SURFACES + 1)
        ]
        session.flush()
        bulk(session, Task, task_rows(build.row_id, tasks, drawn))
        bulk(session, Need, need_rows(build.row_id, tasks, needs, drawn))
        bulk(session, Photo, photo_rows(photos))
        places = [surface.row_id for surface in surfaces]
        bulk(
            session,
            TaskSurface,
            [
                {"task_id": number, "surface_id": drawn.choice(places), "closes": number % (tasks // 30) == 0}
                for number in range(1, tasks + 1)
            ],
        )
        bulk(
            session,
            PicturePlace,
            [
                {"build_id": build.row_id, "photo_id": number, "surface_id": drawn.choice(places), "placed_at": AT}
                for number in range(1, photos + 1)
            ],
        )
        add_record(session, build, surfaces, spend)
        a_full_wall(session, build, SURFACES + 1)
        slug = build.slug
    with database.engines()[1].connect() as connection:
        connection.execute(text("ANALYZE"))
        connection.commit()
    return slug, token


def add_record(session: Session, build: Build, surfaces: list[Surface], spend: int) -> None:
    """Visits, results, corrections, owed pictures, days and spend."""
    permits = [builders.a_permit(session, build, code) for code in ("BLD", "ELE", "PLB")]
    for place, surface in enumerate(surfaces):
        for permit in permits:
            inspection = builders.an_inspection(
                session, permit, f"{permit.code} rough {place}", (surface,), code=f"{permit.code}{place}"
            )
            visit = builders.a_visit(session, inspection)
            kind = ("passed", "failed", "part passed")[place % 3]
            result = builders.a_result(session, visit, surface, kind)
            if kind != "passed":
                builders.a_correction(session, visit, result)
        bulk(session, PictureSlot, slot_rows(surface.row_id))
    bulk(session, Workday, day_rows(build.row_id))
    bulk(session, Spend, spend_rows(build.row_id, spend))


def slot_rows(surface_id: int) -> Iterator[dict[str, Any]]:
    """Eight pictures owed, five of them there."""
    for number in range(1, 9):
        filled = number if number <= 5 else None
        yield {"surface_id": surface_id, "position": number, "number": number, "what": "Each box", "photo_id": filled}


def day_rows(build_id: int) -> Iterator[dict[str, Any]]:
    for number in range(0, 250, 2):
        day = FIRST + timedelta(days=number)
        yield {"build_id": build_id, "day": day, "own_min": 120, "logged_at": AT}


def spend_rows(build_id: int, count: int) -> Iterator[dict[str, Any]]:
    for number in range(count):
        yield {
            "build_id": build_id,
            "day": FIRST + timedelta(days=number % 250),
            "what": "Screws",
            "total_cents": 1299,
            "phase_id": 1 + number % PHASES,
            "at": AT,
        }
