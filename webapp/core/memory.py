"""What was computed from the record, kept until a table it was read from is written: every page asks the same graph.

Which tables those are is not said by anyone: while a thing is computed, every statement that is sent says it. Safe
because one process does all writing (held by the lock file) and each commit says which tables it wrote.
"""

import re
import threading
from collections import OrderedDict
from collections.abc import Callable, Iterable, Mapping
from contextvars import ContextVar
from functools import lru_cache
from typing import Any, NamedTuple, TypeVar, cast

from sqlmodel import SQLModel

Kept = TypeVar("Kept")
KEPT_AT_MOST = 320
ANY = "*"
"""stands for whatever is written"""
WORD = re.compile(r"\w+")
READS = re.compile(r"\s*(SELECT|PRAGMA|BEGIN|COMMIT|ROLLBACK|SAVEPOINT|RELEASE)\b", re.IGNORECASE)

_asked: ContextVar[set[str] | None] = ContextVar("asked", default=None)


@lru_cache(maxsize=4096)
def tables_in(statement: str) -> frozenset[str]:
    """The tables an SQL statement names, and perhaps some it does not read: one too many only costs time."""
    return frozenset(WORD.findall(statement)) & SQLModel.metadata.tables.keys()


def note(tables: Iterable[str]) -> None:
    """Whatever is being computed in this thread rests on these tables."""
    asked = _asked.get()
    if asked is not None:
        asked.update(tables)


class View(NamedTuple):
    """The record after so many commits, and for each table the last commit that wrote it."""

    generation: int
    written: Mapping[str, int]

    def after(self, tables: Iterable[str]) -> "View":
        generation = self.generation + 1
        return View(generation, {**self.written, **dict.fromkeys([ANY, *tables], generation)})


class _Entry(NamedTuple):
    generation: int
    tables: frozenset[str]
    value: Any

    def holds(self, view: View) -> bool:
        """Whether it is what would be computed now; of a later commit it may not be, so that a page is of one piece."""
        written = max((view.written.get(table, 0) for table in self.tables), default=0)
        return written <= self.generation <= view.generation


class Memory:
    """Values by their keys, the longest unused forgotten first."""

    def __init__(self) -> None:
        self._guard = threading.Lock()
        self._kept: OrderedDict[Any, _Entry] = OrderedDict()
        self._working: dict[Any, threading.Lock] = {}

    def get(
        self, view: View, key: Any, compute: Callable[[], Kept], worth: Callable[[Kept], bool], each_commit: bool
    ) -> Kept:
        with self._guard:
            held = self._held(key, view)
            if held:
                self._kept.move_to_end(key)
                return cast(Kept, held.value)
            working = self._working.setdefault(key, threading.Lock())
        with working:  # fifty readers after a write compute once, not fifty times
            held = self._held(key, view)
            if held:
                return cast(Kept, held.value)
            return self._keep(view, key, compute, worth, each_commit)

    def _held(self, key: Any, view: View) -> _Entry | None:
        held = self._kept.get(key)
        if held is None or not held.holds(view):
            return None
        note(held.tables)
        return held

    def _keep(
        self, view: View, key: Any, compute: Callable[[], Kept], worth: Callable[[Kept], bool], each_commit: bool
    ) -> Kept:
        kept = False
        tables: set[str] = {ANY} if each_commit else set()
        outside = _asked.set(tables)
        try:
            value = compute()
            kept = worth(value)
            return value
        finally:
            _asked.reset(outside)
            note(tables)
            with self._guard:
                before = self._kept.get(key)
                late = before is not None and before.generation > view.generation
                if kept and not late:  # a reader from before the last commit spoils nothing
                    self._kept[key] = _Entry(view.generation, frozenset(tables or {ANY}), value)
                    self._kept.move_to_end(key)
                elif not kept:  # nor is the lock of what failed or is too large, there may be any number of such keys
                    self._kept.pop(key, None)
                    self._working.pop(key, None)
                while len(self._kept) > KEPT_AT_MOST:
                    self._working.pop(self._kept.popitem(last=False)[0], None)
