"""Boxes counted on the open surface, written down in its table, and found again after it was closed."""

from collections.abc import Sequence
from dataclasses import dataclass

from webapp.values.words import join_words, plural

ASKED_BY = "the count of boxes"
"""who asks for a box that is not found; so the question is known again when they are counted anew"""
NAMED = 8
"""boxes named in one sentence at most"""


@dataclass(frozen=True, slots=True)
class Box:
    """A box of the table: its tag, or its label where it has no offsets, and where it is."""

    id: int
    named: str
    where: str


def table_words(before: int | None, listed: int) -> str:
    """Where the count on the open surface and the table differ, which of the two to look at; empty where they agree."""
    if before is None or before == listed:
        return ""
    more = "one is in the table twice, or was not counted" if listed > before else "one was never measured"
    return f"{before} counted open, {plural(listed, 'box')} in the table: {more}."


def missing_words(before: int | None, after: int | None, boxes: Sequence[Box], found: Sequence[int]) -> str:
    """What is to be looked for after the closing, with where each is; empty where as many were found as there were.

    `found`: ids of boxes that were ticked as found. Where none was ticked, any of the table may be the missing one.
    """
    expected = before if before is not None else len(boxes)
    if after is None or after == expected:
        return ""
    if after > expected:
        return f"{expected} counted open, {after} found: one was missed while it was open, or one was counted twice."
    left = [box for box in boxes if box.id not in found]
    told = [f"{box.named}, {box.where}" for box in left[:NAMED]]
    if len(left) > NAMED:
        told.append(f"{len(left) - NAMED} more of the table")
    where = (
        f"look near {join_words(told) if len(told) < 2 else '; '.join(told)}" if told else "none of the table is left"
    )
    return f"{expected} open, {after} found: {where}."
