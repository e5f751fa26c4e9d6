"""The network's answers in the builder's words: may this be covered, how much stops a thing, and whose it is."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from webapp.readiness.rules.network import Network, Node, Root, Unmet, WaitsFor
from webapp.values.words import join_words, plural

_NUMBERS = ("No", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine", "Ten", "Eleven", "Twelve")
_WHOSE: Mapping[WaitsFor, str] = {
    WaitsFor.ME: "mine",
    WaitsFor.INSPECTOR: "the inspector’s",
    WaitsFor.SUPPLIER: "the supplier’s",
    WaitsFor.DRYING: "drying",
    WaitsFor.WEATHER: "up to the weather",
    WaitsFor.MONEY: "short of money",
    WaitsFor.HELPER: "the helper’s",
    WaitsFor.HIRED: "the hired hand’s",
    WaitsFor.ANSWER: "short of an answer",
}
_FOR_WHOM: Mapping[WaitsFor, str] = {
    WaitsFor.ME: "you",
    WaitsFor.INSPECTOR: "the inspector",
    WaitsFor.SUPPLIER: "the supplier",
    WaitsFor.DRYING: "drying",
    WaitsFor.WEATHER: "the weather",
    WaitsFor.MONEY: "money",
    WaitsFor.HELPER: "the helper",
    WaitsFor.HIRED: "the hired hand",
    WaitsFor.ANSWER: "an answer",
}


@dataclass(frozen=True, slots=True)
class CoverAnswer:
    """May a surface be covered? `stops` and `wishes` name everything still owed, not just the first."""

    may_be_covered: bool
    stops: tuple[Unmet, ...]
    wishes: tuple[Unmet, ...]
    sentence: str


def cover_answer(network: Network, cover_key: str, surface_name: str) -> CoverAnswer:
    """Answer for the cover node `cover_key`; KeyError if the network has none.

    A covered surface is answered too: `stops` is then what was taken back or never met, and the sentence says so.
    """
    owed = sorted(network.unmet(cover_key), key=_by_kind)
    stops = tuple(need for need in owed if need.hard)
    wishes = tuple(need for need in owed if not need.hard)
    says = _owed_sentence(len(stops), len(wishes))
    if network.node(cover_key).settled:
        says = f"covered, {says}"
    return CoverAnswer(not stops, stops, wishes, f"{surface_name}: {says}.")


_KINDS = (
    *("covering", "change", "basis", "correction", "inspection", "waited"),
    *("asked", "question", "task", "permit", "fee"),
    *("count", "offsets", "picture", "shot"),
)
"""The order of a list of what is owed: what others want first, then my own evidence."""


def _by_kind(need: Unmet) -> tuple[int, int]:
    kind = need.node.kind
    return _KINDS.index(kind) if kind in _KINDS else len(_KINDS), need.node.rank


def _owed_sentence(stops: int, wishes: int) -> str:
    if not stops + wishes:
        return "nothing owed"
    if not stops:
        return "no hard stop, one wish open" if wishes == 1 else f"no hard stop, {number_word(wishes)} wishes open"
    if wishes:
        return f"{stops + wishes} owed, {stops} of them {'a hard stop' if stops == 1 else 'hard stops'}"
    if stops == 1:
        return "1 owed, a hard stop"
    return f"{stops} owed, {'both' if stops == 2 else 'all'} hard stops"


def count_words(answer: CoverAnswer) -> str:
    """ "2 hard stops, 3 wishes" """
    parts = []
    if answer.stops:
        parts.append(plural(len(answer.stops), "hard stop"))
    if answer.wishes:
        parts.append(plural(len(answer.wishes), "wish"))
    return ", ".join(parts) or "nothing owed"


def freed(before: Network, after: Network) -> tuple[Node, ...]:
    """Tasks that became startable and covers that may now be closed between two states, in the builder's order.

    What is new in `after`, or was settled before and taken back, was not freed by anything and is left out.
    """
    return tuple(
        node
        for node in after.startable(("task", "cover"))
        if node.key in before and not before.node(node.key).settled and not before.can_start(node.key)
    )


def whom_sentence(roots: Iterable[Root | Unmet]) -> str:
    """A short note of how many and whose: "2, both mine", "6: 3 mine, 2 the inspector’s, 1 drying"; "none" for none."""
    counts = Counter(_whom(root) for root in roots)
    total = counts.total()
    if not total:
        return "none"
    if len(counts) == 1:
        together = {1: "", 2: "both "}.get(total, "all ")
        return f"{total}, {together}{_WHOSE[next(iter(counts))]}"
    return f"{total}: " + ", ".join(f"{counts[whom]} {_WHOSE[whom]}" for whom in WaitsFor if counts[whom])


def _whom(root: Root | Unmet) -> WaitsFor:
    if isinstance(root, Root):
        return root.waits_for
    return WaitsFor.DRYING if root.drying else root.node.waits_for


def stops_sentence(roots: Iterable[Root]) -> str:
    """How many root causes and how many of them the builder can start: "Six things. Three of them you can start today."

    Give the roots of a blocked thing: one that can start is its own root and would be counted.
    """
    roots = tuple(roots)
    total = len(roots)
    mine = sum(root.waits_for is WaitsFor.ME for root in roots)
    if not total:
        return "Nothing stops it."
    if total == 1:
        return "One thing. You can start it today." if mine else f"One thing. It waits for {_for_whom(roots)}."
    if not mine:
        return f"{_number(total)} things. {'Both' if total == 2 else 'All of them'} wait for {_for_whom(roots)}."
    if mine == total:
        return f"{_number(total)} things. You can start {'both' if total == 2 else 'all of them'} today."
    return f"{_number(total)} things. {_number(mine)} of them you can start today."


def _for_whom(roots: tuple[Root, ...]) -> str:
    present = {root.waits_for for root in roots}
    return join_words([_FOR_WHOM[whom] for whom in WaitsFor if whom in present])


def _number(count: int) -> str:
    return _NUMBERS[count] if count < len(_NUMBERS) else str(count)


def number_word(count: int) -> str:
    """ "three", and 13 for thirteen"""
    return _number(count).lower()
