"""What the graph of needs is made of and what it answers with: plain frozen facts, no logic."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from webapp.plan.rules.graph import Link


class WaitsFor(StrEnum):
    """Whom or what a thing waits for once its own needs are met."""

    ME = "me"
    INSPECTOR = "inspector"
    SUPPLIER = "supplier"
    DRYING = "drying"
    WEATHER = "weather"
    MONEY = "money"
    HELPER = "helper"
    HIRED = "hired hand"
    ANSWER = "an answer"

    @property
    def letter(self) -> str:
        """The letter drawn in its tag; X and A because H, M and S are taken by others."""
        return _LETTERS[self]


_LETTERS: Mapping[WaitsFor, str] = dict(zip(WaitsFor, "MISDWFHXA", strict=True))


@dataclass(frozen=True, slots=True)
class Node:
    """One thing in the graph. `kind`: task, inspection, correction, question, shot, picture, permit, fee, cover,
    asked, basis, count, covering (by mistake), change or waited (from a hired trade). `until` is the day it is
    expected; `detail` says where it comes from, `href` where it is settled, `ready_says` what to call it when nothing
    stops it; `skippable` is evidence of my own.
    """

    key: str
    kind: str
    title: str
    settled: bool = False
    settled_on: date | None = None
    waits_for: WaitsFor = WaitsFor.ME
    detail: str = ""
    href: str = ""
    until: date | None = None
    minutes: int | None = None
    phase_id: int | None = None
    surface_ids: tuple[int, ...] = ()
    hands: int = 1
    who: str = "self"
    weather: str = "any"
    started: bool = False
    one_go: bool = False
    skippable: bool = False
    rank: int = 0
    ready_says: str = ""


@dataclass(frozen=True, slots=True)
class Unmet:
    """A direct need not met yet. `drying`: its node is settled, only the wait still runs, and ends on `until`, which
    is None where nobody wrote down the day it began.
    """

    node: Node
    hard: bool
    reason: str
    until: date | None
    drying: bool


@dataclass(frozen=True, slots=True)
class Root:
    """A root cause. `frees`: keys of direct waiters that nothing else stops; `holds_up`: how many lie downstream.

    A running wait has its settled node, DRYING and its last day, None where nobody wrote down when it began; one node
    can have several waits of different length.
    """

    node: Node
    waits_for: WaitsFor
    until: date | None
    frees: tuple[str, ...]
    holds_up: int


@dataclass(frozen=True, slots=True)
class Frees:
    """What settling one thing today does: `now` can start at once, for `later` a wait begins to run."""

    now: tuple[Node, ...]
    later: tuple[Node, ...]
    downstream: int


@dataclass(frozen=True, slots=True)
class Neighbourhood:
    """What to draw around one thing: `level` is 0 for it, below 0 for needs, above 0 for waiters; needs come lower."""

    nodes: tuple[Node, ...]
    links: tuple[Link, ...]
    level: Mapping[str, int]
