"""A change from what was approved: what it moves, what it touches, what the builder says of it."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Protocol

from webapp.inspections.rules.kinds import ChangeAnswer

Reopening = tuple[int, int | None]
"""an inspection and the surface of which it is owed anew; None for the whole building"""


@dataclass(frozen=True, slots=True)
class Move:
    """Where a hidden thing goes."""

    item_id: int
    surface_id: int
    from_corner: str
    x_nm: int | None
    y_nm: int | None


@dataclass(frozen=True, slots=True)
class Change:
    what: str
    why: str
    who_agrees: str
    on_day: date
    asked_on: date | None = None


@dataclass(frozen=True, slots=True)
class Touched:
    """What a change touches: surfaces that stay open until it is answered, inspections owed anew, and by their ids
    shots to be filmed again, tasks to be done again, owed pictures that show the old state."""

    surface_ids: tuple[int, ...]
    reopened: tuple[Reopening, ...] = ()
    shot_ids: tuple[int, ...] = ()
    task_ids: tuple[int, ...] = ()
    slot_ids: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Answer:
    """What was said to a change, by whom; without a picture of a paper it is my note."""

    answer: ChangeAnswer
    who: str
    on: date
    words: str
    photo_id: int | None = None


class Placed(Protocol):
    @property
    def id(self) -> int: ...
    @property
    def surface_id(self) -> int: ...
    @property
    def x_nm(self) -> int | None: ...
    @property
    def y_nm(self) -> int | None: ...
    @property
    def replaced_by_id(self) -> int | None: ...


def earlier_states(item_id: int, items: Iterable[Placed]) -> tuple[Placed, ...]:
    """What a thing stands in for, the last state before it first."""
    by_new = {one.replaced_by_id: one for one in items if one.replaced_by_id is not None}
    found: list[Placed] = []
    earlier = by_new.get(item_id)
    while earlier is not None and earlier not in found:
        found.append(earlier)
        earlier = by_new.get(earlier.id)
    return tuple(found)


def is_back(move: Move, items: Iterable[Placed]) -> bool:
    """Whether a thing goes back to its very first place: the one that was there before any change.

    A place in between may have been refused, so going back there is asked about like any other.
    """
    first = earlier_states(move.item_id, items)[-1:]
    place = (move.surface_id, move.x_nm, move.y_nm)
    return any((one.surface_id, one.x_nm, one.y_nm) == place for one in first)


def has_to_be_asked(move: Move, items: Iterable[Placed], changed: Iterable[int], *, approved: bool) -> bool:
    """Whether a move is a change that somebody has to agree to: something approved is touched, or the thing came where
    it is by such a change (`changed`: things in their old state) and goes on instead of back."""
    items = tuple(items)
    came_so = any(one.id in set(changed) for one in earlier_states(move.item_id, items))
    return approved or (came_so and not is_back(move, items))
