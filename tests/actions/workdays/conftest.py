"""The site before a day: a wall, a task that works on it, one that closes it, and a day to say something of."""

import secrets
from dataclasses import dataclass
from datetime import date

import pytest

from tests import builders
from webapp.photos.models import Photo
from webapp.plan.models import Task
from webapp.plan.store import get_build
from webapp.readiness.store import Site, look_over
from webapp.surfaces.models import Surface
from webapp.workdays.rules.hours import Hours
from webapp.workdays.rules.said import DayForm, DayWords

SATURDAY = date(2026, 5, 16)


@dataclass
class East:
    """The east wall: wiring, then board, which closes it."""

    surface: Surface
    wiring: Task
    board: Task


@pytest.fixture
def east(session, build) -> East:
    surface = builders.a_surface(session, build)
    builders.looked_at(session, build, surface)
    phase = builders.a_phase(session, build)
    wiring = builders.a_task(session, phase, "Pull the circuit", 1, kind="wiring")
    board = builders.a_task(session, phase, "Hang the board on E", 2)
    builders.a_need(session, board, wiring)
    builders.works_on(session, wiring, surface)
    builders.works_on(session, board, surface, closes=True)
    return East(surface, wiring, board)


def site_of(session) -> Site:
    session.flush()
    session.expire_all()
    return look_over(session, get_build(session, "bindery"), SATURDAY)


def a_day(day: date = SATURDAY, own: int = 0, **more) -> DayForm:
    """A form; `words` of the day are given as `said`."""
    said = more.pop("said", {})
    hours = more.pop("hours", Hours(own=own))
    return DayForm(DayWords(day, hours, **said), **more)


def a_photo(session, **more) -> Photo:
    """The row of a picture; what these tests ask never opens its file."""
    values = {"media_type": "image/jpeg", "size": 9, "width": 4, "height": 3, "received_at": builders.AT} | more
    return builders.kept(session, Photo(sha256=secrets.token_hex(32), **values))
