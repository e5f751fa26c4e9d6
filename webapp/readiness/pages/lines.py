"""Stops and roots as lines to show: what, where it comes from, whom it waits for, where it is settled."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from webapp.readiness.rules.network import Network, Node, Root, Unmet, WaitsFor
from webapp.readiness.rules.wording import down_the_line, ready_words
from webapp.readiness.store import Site
from webapp.values.dates import show_day

SHOWN = 12
"""Lines of a long list before its break line"""


@dataclass(frozen=True, slots=True)
class Line:
    """One thing owed. `letter` and `whom` are empty where it waits for me and the sheet says so already."""

    key: str
    title: str
    detail: str
    href: str
    letter: str = ""
    whom: str = ""
    frees: str = ""
    frees_label: str = ""
    shoot: str = ""
    """where a picture for it is sent straight from the list; empty for what is no picture to be taken"""

    @property
    def number(self) -> str:
        """Of its row in the record."""
        return self.key.partition(":")[2]


def _wait_ends(until: date | None, today: date) -> str:
    return f"Until {show_day(until, today)}." if until else "It began on an unknown day: give the day it was done."


def _settled_at(node: Node, until: date | None) -> str:
    """Where a wait is looked at, or the day given that it is counted from."""
    return f"{node.href}/day" if until is None and node.kind == "task" else node.href


def _shoot(node: Node) -> str:
    address, _, asked = node.href.partition("?")
    return address if node.kind == "picture" and asked.startswith("slot=") else ""


def owed_line(network: Network, need: Unmet) -> Line:
    """A direct need; one that cannot be settled yet says what comes first."""
    node = need.node
    if need.drying:
        detail = f"{need.reason[:1].upper()}{need.reason[1:]}." if need.reason else "Waits by itself."
        detail = f"{detail} {_wait_ends(need.until, network.today)}"
        return Line(node.key, node.title, detail, _settled_at(node, need.until), "D", "drying")
    roots = network.roots(node.key)
    first = next((root for root in roots if root.node.key != node.key), None)
    if first is not None and node.kind == "correction":  # says itself whose act clears it
        whom, detail = first.waits_for, node.detail
    elif first is not None:
        whom = first.waits_for
        before = f"First: {ready_words(first).rstrip('.')}."
        detail = f"{node.detail} {before}" if node.kind != "task" else before
    else:
        whom, detail = node.waits_for, node.detail
    mine = whom is WaitsFor.ME
    return Line(
        node.key,
        node.title,
        detail.strip(),
        node.href,
        "" if mine else whom.letter,
        "" if mine else whom.value,
        shoot=_shoot(node),
    )


def _placed(site: Site, node: Node) -> str:
    """Where it comes from, with its surface in front where the title does not say of which it is."""
    named = node.kind in {"task", "inspection", "cover"} or len(node.surface_ids) != 1
    return node.detail if named else f"{site.record.surface[node.surface_ids[0]].name}. {node.detail}"


def root_line(site: Site, root: Root, way: tuple[str, ...]) -> Line:
    """A root cause with what it frees. `way` are the keys from it down to the asked thing, both included."""
    node = root.node
    label, frees = down_the_line(site.network, root, way)
    detail, href = _placed(site, node), node.href
    if root.waits_for is WaitsFor.DRYING:
        detail, href = f"Waits by itself. {_wait_ends(root.until, site.today)}", _settled_at(node, root.until)
    elif root.waits_for is WaitsFor.ANSWER and node.kind != "question":
        detail = "In a circle of needs: which comes first? Take one of them away."
    return Line(node.key, ready_words(root), detail, href, root.waits_for.letter, root.waits_for.value, frees, label)


def owed_lines(network: Network, needs: Iterable[Unmet]) -> tuple[Line, ...]:
    return tuple(owed_line(network, need) for need in needs)
