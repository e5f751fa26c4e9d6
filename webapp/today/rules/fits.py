"""What can be done with the time, the hands and the weather there are."""

from collections.abc import Iterable
from dataclasses import dataclass

from webapp.plan.rules.kinds import Weather, Who
from webapp.readiness.rules.network import Node, Root, WaitsFor

A_DAY = 600
TIMES = ((60, "1 h"), (120, "2 h"), (240, "4 h"), (A_DAY, "a day"))
FIRST_STEP = 120
"""longest first step after a gap, in minutes"""


@dataclass(frozen=True, slots=True)
class Chance:
    """What the builder says of the next hours."""

    minutes: int = 120
    helper: bool = False
    dry: bool = True

    @property
    def words(self) -> str:
        return f"{'with help' if self.helper else 'alone'}, {'dry' if self.dry else 'wet'}"


def fits(node: Node, chance: Chance) -> bool:
    """By likely minutes. What is under way fits any time, and a day fits all, unless it has to go in one go."""
    if node.who == Who.HIRED or node.hands > (2 if chance.helper else 1):
        return False
    if node.who == Who.HELPER and not chance.helper:
        return False
    if node.weather == Weather.DRY and not chance.dry:
        return False
    if node.minutes is None or node.minutes <= chance.minutes:
        return True
    return not node.one_go and (node.started or chance.minutes >= A_DAY)


def in_hand(roots: Iterable[Root], chance: Chance) -> tuple[Root, ...]:
    """What can be begun, in the order to offer it: under way, then what holds up most, then the builder's order."""
    mine = {WaitsFor.ME, WaitsFor.HELPER} if chance.helper else {WaitsFor.ME}
    found = [root for root in roots if root.waits_for in mine and fits(root.node, chance)]
    return tuple(sorted(found, key=lambda root: (not root.node.started, -root.holds_up, root.node.rank)))


def first_step(roots: Iterable[Root]) -> Root | None:
    """One step alone and under two hours whose length is known, that frees most; else any other of mine."""
    short = in_hand(roots, Chance(FIRST_STEP))
    known = [root for root in short if root.node.minutes is not None and root.node.minutes <= FIRST_STEP]
    return next(iter(known or short), None)
