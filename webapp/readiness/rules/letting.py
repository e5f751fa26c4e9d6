"""What may be let go, and by whom. What the authority asked for only the authority's own word lifts; danger and
curing nobody's.
"""

from collections.abc import Iterable

from webapp.readiness.rules.network import Unmet

AUTHORITY_SAYS = frozenset({"inspection", "correction", "asked"})


def is_mine(need: Unmet) -> bool:
    """Whether I may let it go with a reason: a wish, or evidence of my own also where it was meant as a must."""
    return not need.drying and (not need.hard or need.node.skippable)


def is_theirs(need: Unmet) -> bool:
    return need.hard and not need.drying and need.node.kind in AUTHORITY_SAYS


def mine_to_let_go(owed: Iterable[Unmet]) -> tuple[Unmet, ...]:
    return tuple(need for need in owed if is_mine(need))


def theirs_to_lift(owed: Iterable[Unmet]) -> tuple[Unmet, ...]:
    return tuple(need for need in owed if is_theirs(need))
