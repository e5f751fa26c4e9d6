"""Counting what a page asks of the record: the same number of queries for five rows and for fifty."""

import threading
from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy import event

from webapp.core.database import Database
from webapp.core.memory import Memory


@contextmanager
def queries(database: Database, *, anew: bool = False) -> Iterator[list[str]]:
    """The statements sent while the block runs, pragmas and transaction words left out.

    `anew`: as after a start, with nothing kept in memory, so that two counts can be compared. What the thread that
    works after each commit asks meanwhile is no page's doing.
    """
    sent: list[str] = []
    if anew:
        database.memory = Memory()

    def asked(_connection, _cursor, statement, *_more) -> None:
        if threading.current_thread().name == "background":
            return
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
