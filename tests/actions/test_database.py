"""Laws of the record: a GET cannot write, a save happens wholly or not at all, what is remembered is never stale."""

import threading

import pytest
from sqlalchemy.exc import OperationalError
from sqlmodel import select

from tests import builders
from webapp.core.database import remembered
from webapp.plan.models import Build, Phase


def test_a_reading_session_cannot_write(database, build):
    with database.reading() as session:
        session.add(Phase(build_id=build.row_id, title="Board", position=1))
        with pytest.raises(OperationalError, match="readonly"):
            session.flush()


def test_a_save_that_fails_half_way_leaves_nothing(database, build):
    with pytest.raises(RuntimeError, match="power"), database.writing() as session:
        builders.a_phase(session, build)
        raise RuntimeError("power")
    with database.reading() as session:
        assert session.exec(select(Phase)).all() == []


def test_what_is_remembered_moves_on_with_each_commit(database, build):
    def count(session):
        return remembered(session, "phases", lambda: len(session.exec(select(Phase)).all()))

    with database.reading() as session:
        assert count(session) == 0
    with database.writing() as session:
        builders.a_phase(session, build)
        assert count(session) == 1, "inside a writing session nothing old is used"
    with database.reading() as session:
        assert count(session) == 1


def test_four_threads_that_read_change_and_write_lose_nothing(database, build):
    """With a plain BEGIN most of these fail with "database is locked"; see DEVELOPERS.md, laws."""

    def add_hours() -> None:
        for _ in range(25):
            with database.writing() as session:
                found = session.exec(select(Build).where(Build.id == build.row_id)).one()
                found.what = str(int(found.what or 0) + 1)

    with database.writing() as session:
        session.exec(select(Build)).one().what = "0"
    threads = [threading.Thread(target=add_hours) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    with database.reading() as session:
        assert session.exec(select(Build)).one().what == "100"


@pytest.mark.parametrize(
    ("pragma", "wanted"), [("journal_mode", "wal"), ("synchronous", 2), ("foreign_keys", 1), ("busy_timeout", 5000)]
)
def test_every_connection_is_set_for_safety(database, pragma, wanted):
    for engine in database.engines():
        with engine.connect() as connection:
            assert connection.exec_driver_sql(f"PRAGMA {pragma}").scalar_one() == wanted
