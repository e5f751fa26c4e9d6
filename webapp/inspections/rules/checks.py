"""Points to look over before a visit: the list a trade begins with, and what to have ready for any visit.

The points of a trade are in our own short words, gathered from published lists of what fails most (building
departments' handouts, trade papers); each says on how many of those it was found. They are no requirement: the builder
takes, changes and ends them, and the local authority decides.
"""

import csv
import functools
from dataclasses import dataclass
from importlib.resources import files

from webapp.inspections.rules.trades import looks_at

TRADES = ("footing", "framing", "electrical", "plumbing", "mechanical", "insulation", "board")
TRADE_CHOICES = (("", "None of its own"), *((trade, trade.capitalize()) for trade in TRADES))
HANDOUT, OWN = "my authority’s handout", "my own"


@dataclass(frozen=True, slots=True)
class Point:
    """One point offered, and where it comes from."""

    words: str
    source: str


def _source(lists: int) -> str:
    if not lists:
        return "common practice, no list found"
    return "on a published list of what fails" if lists == 1 else f"on {lists} published lists of what fails"


@functools.cache
def self_checks() -> dict[str, tuple[Point, ...]]:
    """By trade, the points that a list begins with, in the order in which they fail most."""
    text = (files("webapp.inspections.rules") / "self_checks.csv").read_text(encoding="utf-8")
    found: dict[str, list[Point]] = {trade: [] for trade in TRADES}
    for row in csv.DictReader(text.splitlines()):
        found[row["trade"]].append(Point(row["words"], _source(int(row["lists"]))))
    return {trade: tuple(points) for trade, points in found.items()}


_BY_SERVICE = (
    ("electrical", ("electric", "data")),
    ("plumbing", ("water", "drain")),
    ("mechanical", ("air", "gas")),
    ("framing", ("framing",)),
)
_BY_WORD = (
    ("insulation", ("insulat", "retarder")),
    ("board", ("board", "drywall", "gypsum")),
    ("footing", ("foot", "found", "slab", "pour")),
    ("framing", ("sheath", "nailing")),
)


def trade_of(name: str, chosen: str = "") -> str:
    """The trade whose list an inspection uses: the one chosen, else what its name speaks of, else none.

    Common practice, no source: a proposal by words, since names are the builder's own.
    """
    if chosen:
        return chosen
    for trade, begins in _BY_WORD:
        if any(part in name.casefold() for part in begins):
            return trade
    return next((trade for trade, services in _BY_SERVICE if any(looks_at(name, one) for one in services)), "")


READY_SOURCE = "offices’ lists for owners"
VIDEO_SOURCE = "offices’ guides to visits by video"
READY = (
    Point("Permit card up where it can be seen", READY_SOURCE),
    Point("Stamped plans here, and the latest revision", READY_SOURCE),
    Point("Truss papers, makers’ sheets and letters at hand", READY_SOURCE),
    Point("Way in open, no debris, stairs safe", READY_SOURCE),
    Point("A ladder, where there is anything above reach", READY_SOURCE),
    Point("House number to be read from the street", READY_SOURCE),
    Point("Somebody here to open up", READY_SOURCE),
    Point("All of it in view, nothing covered", READY_SOURCE),
)
"""for any visit; published lists for owners of what must be on site"""

VIDEO = (
    Point("Begin at the street with the house number in view", VIDEO_SOURCE),
    Point("Walk clockwise, from the door around the room", VIDEO_SOURCE),
    Point("Tape, level and a light in your pocket, the ladder up", VIDEO_SOURCE),
    Point("Phone charged, signal tried where the work is", VIDEO_SOURCE),
    Point("Hold still on each label and gauge until they say so", VIDEO_SOURCE),
)
"""for a visit by video, where the office takes one"""
