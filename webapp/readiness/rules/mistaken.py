"""A surface that was covered before it was cleared: whether the authority has to speak of it, and whether it did."""

from collections.abc import Iterable
from datetime import date, datetime

from webapp.inspections.rules.facts import ResultFacts
from webapp.inspections.rules.kinds import ResultState
from webapp.inspections.rules.results import frees
from webapp.readiness.rules.letting import AUTHORITY_SAYS


def needs_a_word(owed_keys: Iterable[str]) -> bool:
    """Whether something of the authority's was owed when it was covered. Where only pictures or other evidence of my
    own was missing, nobody else has to speak: it is opened up for that, or let go with a reason."""
    return any(key.partition(":")[0] in AUTHORITY_SAYS for key in owed_keys)


def spoken_since(written_at: datetime, surface_id: int, results: Iterable[ResultFacts]) -> ResultFacts | None:
    """The first result on record since that names this surface and frees it; of the whole building names none.

    What counts is when it was written down, so that a pass of an earlier visit, found on the card later, counts.
    """
    named = (
        one
        for one in results
        if one.surface_id == surface_id
        and one.state == ResultState.CURRENT
        and frees(one)
        and one.recorded_at > written_at
    )
    return min(named, key=lambda one: one.recorded_at, default=None)


def work_title(code: str, *, word: bool) -> str:
    """What the work of getting out of it is called."""
    return f"Ask the inspector about {code}, or open it up" if word else f"Open {code} up, or let go what was missed"


def said_day(result: ResultFacts | None, lifted_on: date | None) -> date | None:
    return result.day if result else lifted_on
