"""What is kept in memory is forgotten when a table it was read from is written, and not before.

Which tables a statement reads or writes is checked against SQLite itself: its authorizer names them as it compiles.
https://www.sqlite.org/c3ref/set_authorizer.html
"""

import sqlite3

import pytest
from sqlalchemy import event
from sqlmodel import select

from tests import builders
from tests.conftest import SATURDAY
from webapp.core.database import remembered
from webapp.core.memory import ANY, View, tables_in
from webapp.plan.models import Build, Phase
from webapp.plan.store import get_build
from webapp.readiness.store import look_over
from webapp.surfaces.models import Surface
from webapp.workdays.store import ask

WRITES = {sqlite3.SQLITE_INSERT, sqlite3.SQLITE_UPDATE, sqlite3.SQLITE_DELETE}


@pytest.fixture
def counted(database, build):
    """Reads the phases through the memory; says how often they were really read."""
    read: list[int] = []

    def phases() -> int:
        def listing() -> int:
            read.append(1)
            return len(session.exec(select(Phase)).all())

        with database.reading() as session:
            return remembered(session, "phases", listing)

    return phases, read


def test_a_list_is_read_again_only_after_a_write_to_its_own_table(database, build, counted):
    phases, read = counted
    assert [phases(), phases()] == [0, 0]
    with database.writing() as session:
        builders.a_surface(session, build)
    assert (phases(), len(read)) == (0, 1)
    with database.writing() as session:
        builders.a_phase(session, build)
    assert (phases(), len(read)) == (1, 2)


def test_a_write_that_was_given_up_forgets_nothing_and_the_next_one_does_not_bear_its_tables(database, build, counted):
    phases, read = counted
    phases()
    with pytest.raises(RuntimeError), database.writing() as session:
        builders.a_phase(session, build)
        session.flush()
        raise RuntimeError
    with database.writing() as session:
        builders.a_surface(session, build)
    assert (phases(), len(read)) == (0, 1)


def test_what_is_made_of_a_kept_list_rests_on_the_tables_of_that_list(database, build, counted):
    phases, _ = counted

    def twice() -> int:
        with database.reading() as session:
            return remembered(session, "twice", lambda: 2 * phases())

    assert [phases(), twice(), twice()] == [0, 0, 0]
    with database.writing() as session:
        builders.a_phase(session, build)
    assert twice() == 2


def test_what_rests_on_no_table_or_on_what_was_read_before_is_made_again_after_each_commit(database, build):
    made: list[str] = []

    def make(key: str, *, each_commit: bool) -> None:
        def compute() -> int:
            made.append(key)
            return len(session.exec(select(Phase)).all()) if each_commit else 0

        with database.reading() as session:
            remembered(session, key, compute, each_commit=each_commit)

    for _ in range(2):
        for _ in range(2):
            make("nothing", each_commit=False)
            make("page", each_commit=True)
        with database.writing() as session:
            builders.a_surface(session, build, code=f"S{len(made)}")
    assert sorted(made) == ["nothing", "nothing", "page", "page"]


def test_a_reader_from_before_a_write_neither_sees_nor_spoils_what_was_made_after_it(database, build):
    def count(session) -> int:
        return remembered(session, "phases", lambda: len(session.exec(select(Phase)).all()))

    with database.reading() as before:
        assert len(before.exec(select(Surface)).all()) == 0  # its view of the record begins with its first statement
        with database.writing() as session:
            builders.a_phase(session, build)
        with database.reading() as after:
            assert count(after) == 1
        assert count(before) == 0
        with database.reading() as after:
            assert count(after) == 1


def test_a_view_knows_the_last_commit_of_each_table():
    view = View(0, {}).after({"a"}).after({"b"}).after(())
    assert view == View(3, {ANY: 3, "a": 1, "b": 2})


def authorized(engine, seen: list[set[str]], actions: set[int]) -> None:
    """From now on `seen` gets, for each statement sent, the tables SQLite says it touches."""

    def said(action, table, *_rest) -> int:
        if action in actions and table and not table.startswith("sqlite_"):
            seen[-1].add(table)
        return sqlite3.SQLITE_OK

    @event.listens_for(engine, "before_cursor_execute")
    def begin(connection, _cursor, statement, *_rest) -> None:
        seen.append(set())
        connection.connection.set_authorizer(None)  # what was compiled before is compiled again
        connection.connection.set_authorizer(said)


def test_every_table_that_sqlite_reads_for_the_graph_and_the_day_is_noticed(database, build):
    seen: list[set[str]] = []
    sent: list[str] = []
    authorized(database.engines()[0], seen, {sqlite3.SQLITE_READ})
    event.listen(database.engines()[0], "before_cursor_execute", lambda *told: sent.append(told[2]))
    with database.writing() as session:
        task = builders.a_task(session, builders.a_phase(session, build))
        builders.works_on(session, task, builders.a_surface(session, build), closes=True)
    with database.reading() as session:
        here = get_build(session, build.slug)
        look_over(session, here, SATURDAY)
        ask(session, here, SATURDAY)
    assert len(set().union(*seen)) > 15
    for statement, tables in zip(sent, seen, strict=True):
        assert tables <= tables_in(statement), statement


def test_every_table_that_sqlite_writes_is_noticed(database, build):
    seen: list[set[str]] = []
    authorized(database.engines()[1], seen, WRITES)
    with database.writing() as session:
        builders.works_on(
            session, builders.a_task(session, builders.a_phase(session, build)), builders.a_surface(session, build)
        )
        session.exec(select(Build)).one().what = "A shed"
    written = {table for table, last in database.view.written.items() if last == database.view.generation} - {ANY}
    assert set().union(*seen) == written
    assert {"plan_task", "plan_phase", "plan_build", "surfaces_surface"} <= written
