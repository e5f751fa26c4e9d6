"""The two ends of a typed need: the key each has in the graph, and what it is called where its title is not known."""

from collections.abc import Mapping

from webapp.plan.rules.kinds import NeedKind
from webapp.values.own_words import own

NAMELESS: Mapping[str, str] = {
    NeedKind.TASK: "a task",
    NeedKind.INSPECTION: f"an {own('inspection')}",
    NeedKind.CORRECTION: "a correction",
    NeedKind.QUESTION: "a question",
    NeedKind.SHOT: "a shot",
    NeedKind.PICTURES: "pictures of a surface",
    NeedKind.PERMIT: f"a {own('permit')}",
}
"""Only tasks have their titles in the plan; the rest are kept by the packages above it."""


def end_key(kind: str, number: int, surface_id: int = 0) -> str:
    """`task:12`, `inspection:3@7`; a surface of 0 is none."""
    return f"{kind}:{number}@{surface_id}" if surface_id else f"{kind}:{number}"


def kind_of(key: str) -> str:
    return key.partition(":")[0]


def number_of(key: str) -> int:
    return int(key.partition(":")[2].partition("@")[0])
