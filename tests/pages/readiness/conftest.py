"""The east wall on record, for pages."""

from collections.abc import Callable

import pytest

from tests.eastwall import EastWall, an_east_wall
from webapp.readiness.rules import keys
from webapp.surfaces.models import Surface

E = "/builds/bindery/surfaces/E"


@pytest.fixture
def wall(database, build) -> EastWall:
    with database.writing() as session:
        made = an_east_wall(session, build)
        session.flush()
        for row in vars(made).values():
            for one in row if isinstance(row, list) else [row]:
                session.refresh(one)
                session.expunge(one)
    return made


@pytest.fixture
def change(database) -> Callable[..., None]:
    """Set columns of a row of the wall: `change(wall.passed, state="withdrawn")`."""

    def put(row: object, **values: object) -> None:
        with database.writing() as session:
            there = session.get_one(type(row), row.row_id)
            for name, value in values.items():
                setattr(there, name, value)

    return put


@pytest.fixture
def settled(wall, client, change) -> EastWall:
    """All is settled but the last two pictures, which are let go."""
    change(wall.correction, state="cleared", cleared_on=wall.passed.day)
    change(wall.shot, state="filmed", filmed_on=wall.passed.day)
    for slot in wall.slots[5:]:
        sent = {"by": "me", "what": keys.slot(slot.row_id), "why": "The light was gone", "on": "today"}
        assert client.post(f"{E}/let-go", data=sent).status_code == 303
    return wall


@pytest.fixture
def cover_key(wall) -> str:
    surface: Surface = wall.surface
    return keys.cover(surface.row_id)
