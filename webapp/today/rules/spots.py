"""Where each note points in the section through a surface, and how the notes stand beside it without crossing.

The section is drawn 120 wide and 378 high; notes begin at 146. Which part a note points at is guessed from its words,
which harms nobody: the note says what it is about, and no drawing here is to scale.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from textwrap import shorten

STEP, FIRST, LAST = 55, 15, 345
MOST = 7
NUDGE = 13
LETTERS = 22
"""of the lettering that stand in one line, also in the sun"""

Spot = tuple[int, int]

WALL: Mapping[str, Spot] = {
    "framing": (56, 16),
    "cable": (66, 76),
    "duct": (80, 125),
    "insulation": (78, 186),
    "cavity": (44, 212),
    "pipe": (64, 250),
    "plate": (50, 324),
    "cover": (103, 300),
}
CEILING: Mapping[str, Spot] = {
    "framing": (20, 120),
    "cable": (40, 142),
    "duct": (78, 136),
    "insulation": (60, 176),
    "pipe": (84, 166),
    "cavity": (32, 196),
    "plate": (100, 196),
    "cover": (60, 226),
}
TRENCH: Mapping[str, Spot] = {
    "cavity": (40, 120),
    "framing": (84, 150),
    "plate": (84, 190),
    "cable": (54, 288),
    "pipe": (70, 288),
    "duct": (70, 288),
    "insulation": (62, 318),
    "cover": (62, 84),
}
SLAB: Mapping[str, Spot] = {
    "cover": (60, 136),
    "cavity": (40, 160),
    "framing": (84, 178),
    "plate": (24, 178),
    "cable": (84, 178),
    "insulation": (60, 206),
    "pipe": (60, 256),
    "duct": (60, 256),
}
_WORDS: Sequence[tuple[str, Sequence[str]]] = (
    ("framing", ("top plate",)),
    ("duct", ("duct", "sleeve", "fan", "line set")),
    ("plate", ("sole", "sill", "hole", "anchor", "plate")),
    ("pipe", ("plumb", "drain", "supply", "pipe", "vent", "trap", "water", "under-slab")),
    ("insulation", ("insul", "batt", "retarder", "barrier")),
    (
        "cable",
        (
            "electr",
            "cable",
            "run ",
            "sub-panel",
            "wire",
            "wiring",
            "box",
            "conduit",
            "receptacle",
            "switch",
            "feeder",
            "camera",
        ),
    ),
    ("framing", ("fram", "stud", "joist", "rafter", "strap", "header", "steel")),
)


def spots_of(kind: str) -> Mapping[str, Spot]:
    return {"ceiling": CEILING, "floor": CEILING, "trench": TRENCH, "slab": SLAB}.get(kind, WALL)


def part_of(words: str) -> str:
    """The part that words are likely about; "cavity" where nothing says."""
    plain = f" {words.lower()} "
    return next((part for part, said in _WORDS if any(f" {word}" in plain for word in said)), "cavity")


@dataclass(frozen=True, slots=True)
class Said:
    """What one note says. `pen`: hard, wish or done."""

    title: str
    detail: str
    pen: str
    part: str


@dataclass(frozen=True, slots=True)
class Note:
    """A note placed: its first baseline, where its leader starts, and the leader itself."""

    title: str
    detail: str
    pen: str
    x: int
    y: int
    at: int
    leader: str


def placed(said: Sequence[Said], kind: str) -> tuple[Note, ...]:
    """At most seven notes, each level with what it points at as far as there is room, so that no two leaders cross."""
    spots = _apart([(one, spots_of(kind)[one.part]) for one in said[:MOST]])
    levels = _spread([y for _, (_, y) in spots])
    return tuple(
        Note(
            title=shorten(one.title, LETTERS, placeholder="…"),
            detail=shorten(one.detail, LETTERS, placeholder="…"),
            pen=one.pen,
            x=x,
            y=y,
            at=level,
            leader=f"M{x} {y}L120 {level}H130",
        )
        for (one, (x, y)), level in zip(spots, levels, strict=True)
    )


def _apart(pointing: Sequence[tuple[Said, Spot]]) -> list[tuple[Said, Spot]]:
    """From top to bottom, with notes that point at the same part set below one another."""
    taken: dict[Spot, int] = {}
    apart = []
    for one, (x, y) in pointing:
        before = taken.get((x, y), 0)
        taken[x, y] = before + 1
        apart.append((one, (x, y + before * NUDGE)))
    return sorted(apart, key=lambda pair: pair[1][1])


def _spread(wanted: Sequence[int]) -> list[int]:
    """Levels at least one step apart, in order, as near as may be to the wanted ones, within the drawing."""
    levels: list[int] = []
    for want in wanted:
        levels.append(max(want, levels[-1] + STEP if levels else FIRST))
    limit = LAST
    for at in range(len(levels) - 1, -1, -1):
        levels[at] = min(levels[at], limit)
        limit = levels[at] - STEP
    return levels
