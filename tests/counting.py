"""Counting what a page asks of the record: the same number of queries for five rows and for fifty."""

from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy import event

from webapp.core.database import Database


@contextmanager
def queries(database: Database) -> Iterator[list[str]]:
    """The statements sent while the block runs, pragmas and transaction words left out."""
    sent: list[str] = []

    def asked(_connection, _cursor, statement, *_more) -> None:
        if statement.lstrip()[:6].upper() in {"SELECT", "INSERT", "UPDATE", "DELETE"}:
            sent.append(statement)

    engines = database.engines()
    for engine in engines:
        event.listen(engine, "before_cursor_execute", asked)
    try:
        yield sent
    finally:
        for engine in engines:
            event.remove(engine, "before_cursor_execute", asked)
