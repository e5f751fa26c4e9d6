"""Which open surface is nearest to closing, and the next thing its builder can do about it."""

from collections.abc import Callable

from webapp.readiness.rules.answers import CoverAnswer
from webapp.readiness.rules.network import Network, Node, Unmet, WaitsFor
from webapp.values.own_words import own

NextThing = tuple[str, str, str]
"""label of the button, where it leads, its icon ("" for none)"""

_LABELS: dict[str, Callable[[Node], tuple[str, str]]] = {
    "picture": lambda node: (f"Take {node.title.partition(':')[0].lower()}", "camera"),
    "shot": lambda _: ("Film the shot", "film"),
    "count": lambda _: ("Count the boxes", ""),
    "offsets": lambda _: ("Measure what is hidden", ""),
    "correction": lambda _: ("Put it right", "pencil"),
    "question": lambda _: ("Answer the question", ""),
    "inspection": lambda node: (
        "Record the result" if node.ready_says.startswith("Record") else "Ask for the visit",
        "",
    ),
    "change": lambda node: (node.ready_says.partition(":")[0] or "Write down the answer", ""),
    "covering": lambda _: ("Write down what was said", ""),
    "asked": lambda _: ("See to what was asked", ""),
    "basis": lambda _: (f"See the {own('inspections')}", ""),
    "permit": lambda _: (f"Ask for the {own('permit')}", ""),
    "fee": lambda _: ("Pay the fee", ""),
    "task": lambda _: ("See the task", ""),
}
"""In the order in which they are offered: what a phone in the hand can settle on the spot comes first."""

MINE = {WaitsFor.ME, WaitsFor.MONEY, WaitsFor.ANSWER}


def next_own_thing(network: Network, answer: CoverAnswer) -> NextThing:
    """The next thing of mine: owed at the surface itself if there is one, else the first root that I can start.

    Empty strings when all waits for others.
    """
    for needs in (answer.stops, answer.wishes):
        own = [need.node for need in needs if _in_my_hands(network, need)]
        if own:
            return _offer(min(own, key=lambda node: tuple(_LABELS).index(node.kind)))
    roots = network.roots_of_all(need.node.key for need in answer.stops if not need.drying)
    mine = [root.node for root in roots if root.waits_for in MINE and root.node.kind in _LABELS]
    return _offer(mine[0]) if mine else ("", "", "")


def _in_my_hands(network: Network, need: Unmet) -> bool:
    node = need.node
    return not need.drying and node.kind in _LABELS and node.waits_for in MINE and network.can_start(node.key)


def _offer(node: Node) -> NextThing:
    label, icon = _LABELS[node.kind](node)
    return label, node.href, icon


def nearness(network: Network, cover_key: str, answer: CoverAnswer, rank: int) -> tuple[int, int, int, int]:
    """Sorts surfaces: fewest causes behind all stops first, then fewest stops, then fewest wishes, then as numbered."""
    return len(network.roots(cover_key)), len(answer.stops), len(answer.wishes), rank
