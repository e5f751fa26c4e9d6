"""The east wall with its tasks, put on record, and the day's form as a phone sends it."""

from dataclasses import dataclass

import pytest

from tests import builders

LOG = "/builds/bindery/workdays/log"


@dataclass(frozen=True)
class East:
    surface: int
    slot: int
    item: int
    wiring: int
    board: int


@pytest.fixture
def east(database, build) -> East:
    with database.writing() as session:
        surface = builders.a_surface(session, build)
        builders.looked_at(session, build, surface)
        phase = builders.a_phase(session, build)
        wiring = builders.a_task(session, phase, "Pull the circuit", 1, kind="wiring")
        board = builders.a_task(session, phase, "Hang the board on E", 2)
        builders.a_need(session, board, wiring)
        builders.works_on(session, wiring, surface)
        builders.works_on(session, board, surface, closes=True)
        slot = builders.a_slot(session, surface)
        item = builders.an_item(session, surface)
        return East(surface.row_id, slot.row_id, item.row_id, wiring.row_id, board.row_id)
