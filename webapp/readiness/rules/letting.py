"""What may be let go, and by whom. What the authority asked for only the authority's own word lifts; danger and
curing nobody's.
"""

from collections.abc import Iterable
from datetime import date, datetime

from webapp.inspections.rules.facts import ResultFacts
from webapp.inspections.rules.kinds import ResultKind, ResultState
from webapp.inspections.rules.results import EFFECTS
from webapp.readiness.rules.network import Unmet

AUTHORITY_SAYS = frozenset({"inspection", "correction", "asked", "covering"})


def is_mine(need: Unmet) -> bool:
    """Whether I may let it go with a reason: a wish, or evidence of my own also where it was meant as a must."""
    return not need.drying and (not need.hard or need.node.skippable)


def is_theirs(need: Unmet) -> bool:
    return need.hard and not need.drying and need.node.kind in AUTHORITY_SAYS


def mine_to_let_go(owed: Iterable[Unmet]) -> tuple[Unmet, ...]:
    return tuple(need for need in owed if is_mine(need))


def theirs_to_lift(owed: Iterable[Unmet]) -> tuple[Unmet, ...]:
    return tuple(need for need in owed if is_theirs(need))


def word_holds(said_on: date, written_at: datetime, results: Iterable[ResultFacts], place: int | None) -> bool:
    """Whether the authority's word on an inspection still stands: a later result that frees nothing overtakes it."""
    return not any(
        one.state == ResultState.CURRENT
        and one.surface_id in {place, None}
        and one.kind != ResultKind.NOT_LOOKED_AT
        and not EFFECTS[ResultKind(one.kind)].frees
        and (one.day, one.recorded_at) > (said_on, written_at)
        for one in results
    )
