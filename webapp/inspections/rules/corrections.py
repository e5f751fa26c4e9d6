"""When a correction is cleared. A later pass of the same inspection on the same surface clears it by itself; that is
derived each time, so withdrawing the pass opens the correction again.

Corrections of a withdrawn or replaced result stay open: that the inspector saw something is not undone by the paper
being taken back. The authority's own word clears them.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from webapp.inspections.rules.facts import CorrectionFacts, ResultFacts
from webapp.inspections.rules.kinds import ClearsBy, CorrectionState, ResultKind, ResultState
from webapp.inspections.rules.order import place_in_order
from webapp.values.dates import show_date


@dataclass(frozen=True, slots=True)
class Clearing:
    """By whom and when a correction was cleared."""

    by: str
    on: date | None


def later_pass(correction: CorrectionFacts, results: Iterable[ResultFacts]) -> ResultFacts | None:
    """The first current pass of the same inspection on its surface at a visit after the one it was written at."""
    known = list(results)
    written = next((result for result in known if result.id == correction.result_id), None)
    if written is None:
        return None
    order = place_in_order(known)
    passes = [
        result
        for result in known
        if result.state == ResultState.CURRENT
        and result.kind == ResultKind.PASSED
        and not result.on_word
        and result.inspection_id == correction.inspection_id
        and result.surface_id in {correction.surface_id, None}
        and result.visit_id != written.visit_id
        and order[result.id] > order[written.id]
    ]
    return min(passes, key=lambda result: order[result.id], default=None)


def clearing(correction: CorrectionFacts, results: Iterable[ResultFacts]) -> Clearing | None:
    """Who cleared it, or None while it is owed.

    A visit clears only what was to be seen again: own word is the builder's to give, a picture sent wants its answer.
    """
    if correction.state == CorrectionState.CLEARED:
        return Clearing(correction.cleared_by or "me", correction.cleared_on)
    if correction.clears_by != ClearsBy.REVISIT:
        return None
    seen = later_pass(correction, results)
    return Clearing(f"the inspector, visit of {show_date(seen.day)}", seen.day) if seen else None


def is_cleared(correction: CorrectionFacts, results: Iterable[ResultFacts]) -> bool:
    return clearing(correction, results) is not None


_STRICTNESS = {ClearsBy.OWN_WORD: 0, ClearsBy.PICTURE: 1, ClearsBy.REVISIT: 2}


def loosens(was: str, becomes: str) -> bool:
    """Whether the new way of clearing asks less of the builder than the old one: only the inspector's side says so."""
    return _STRICTNESS[ClearsBy(becomes)] < _STRICTNESS[ClearsBy(was)]


def clears_in_short(correction: CorrectionFacts) -> str:
    """Whose act clears an open correction, in two or three words; once begun, all of `what_is_owed`."""
    if correction.state != CorrectionState.OPEN:
        return what_is_owed(correction)
    return {
        ClearsBy.OWN_WORD: "My word.",
        ClearsBy.PICTURE: "A picture sent.",
        ClearsBy.REVISIT: "To be seen again.",
    }[ClearsBy(correction.clears_by)]


def what_is_owed(correction: CorrectionFacts) -> str:
    """What an open correction waits for, in words."""
    if correction.state == CorrectionState.OPEN:
        return {
            ClearsBy.OWN_WORD: "Put it right, then say so.",
            ClearsBy.PICTURE: "Put it right, then send a picture.",
            ClearsBy.REVISIT: "Put it right, then have it seen.",
        }[ClearsBy(correction.clears_by)]
    if correction.state == CorrectionState.SENT:
        return "Picture sent. Waits for the inspector's answer."
    return {
        ClearsBy.OWN_WORD: "Done. Say that it is cleared on your word.",
        ClearsBy.PICTURE: "Done. The picture is still to be sent.",
        ClearsBy.REVISIT: "Done. Waits for the inspector to see it.",
    }[ClearsBy(correction.clears_by)]
