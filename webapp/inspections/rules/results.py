"""What a result frees, what it leaves owed, and which result counts. Nothing here is ever stored.

A result without a surface is about the whole building. Of several current ones the newest visit day counts, of one day
the one recorded last (`rules.order`). "Not looked at" says nothing and so takes nothing back. What was said before a
change that made it owed anew counts no more and stays readable. A pass that a hired trade passed on frees nothing until
its card or report is attached; a fail that was passed on holds at once.
"""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from webapp.inspections.rules.corrections import is_cleared
from webapp.inspections.rules.facts import CorrectionFacts, InspectionFacts, ResultFacts
from webapp.inspections.rules.kinds import ClearsBy, Evidence, ResultKind, ResultState
from webapp.inspections.rules.order import place_in_order
from webapp.values.dates import show_date
from webapp.values.own_words import own
from webapp.values.words import join_words


@dataclass(frozen=True, slots=True)
class Effect:
    """What one kind of result means for the surface it names."""

    frees: bool
    owed: str
    """what stays owed, as the builder would say it; empty when nothing"""
    renews: bool
    """whether it counts as an approved visit for the permit's clock"""


EFFECTS: Mapping[ResultKind, Effect] = {
    ResultKind.PASSED: Effect(frees=True, owed="", renews=True),
    ResultKind.SMALL_ITEMS: Effect(frees=True, owed="the small items", renews=True),
    ResultKind.SEEN_NEXT: Effect(frees=False, owed="to be seen at the next visit", renews=False),
    ResultKind.PART_PASSED: Effect(frees=False, owed="the rest of it", renews=True),
    ResultKind.FAILED: Effect(frees=False, owed=f"the same {own('inspection')} again", renews=False),
    ResultKind.NOT_LOOKED_AT: Effect(frees=False, owed="the visit itself", renews=False),
}


@dataclass(frozen=True, slots=True)
class Standing:
    """Where one inspection stands on one surface. `passed`: freed by it, though `owed` corrections may stop cover."""

    words: str
    passed: bool = False
    kind: ResultKind | None = None
    by: str = ""
    """who said so and on what paper: "the inspector, card signed", or "my note" while there is no paper"""
    day: date | None = None
    part: str = ""
    result_id: int | None = None
    visit_id: int | None = None
    photo: str = ""
    owed: tuple[CorrectionFacts, ...] = ()
    word: ResultFacts | None = None
    """a pass somebody passed on, said after all else and waiting for its card or report"""
    before: ResultFacts | None = None
    """what was said last before a change made it owed anew: history"""


NOT_YET = Standing("not looked at yet")


def evidence_words(result: ResultFacts) -> str:
    """What a result rests on: "my note" until a picture of the paper is attached, whatever was ticked."""
    if result.on_word:
        return Evidence.THEIR_WORD.value
    if result.has_paper and result.evidence != Evidence.MY_NOTE:
        return result.evidence
    return Evidence.MY_NOTE.value


def said_by(result: ResultFacts) -> str:
    """Who said so and on what: "the inspector, card signed", "the electrician’s word", "my note"."""
    if result.on_word:
        return f"the {result.signed_by}’s word" if result.signed_by else Evidence.THEIR_WORD.value
    paper = evidence_words(result)
    return paper if paper == Evidence.MY_NOTE else f"the {result.signed_by or 'inspector'}, {paper}"


def frees(result: ResultFacts) -> bool:
    return EFFECTS[ResultKind(result.kind)].frees and not result.on_word


def waits_for_paper(result: ResultFacts) -> bool:
    """A pass by word of mouth."""
    return EFFECTS[ResultKind(result.kind)].frees and result.on_word


def current_result(results: Sequence[ResultFacts], surface_id: int | None) -> ResultFacts | None:
    """The one result of one inspection that counts for a surface, or for the whole building when None."""
    order = place_in_order(results)
    counting = [result for result in _counting(results, surface_id) if not waits_for_paper(result)]
    said = [result for result in counting if result.kind != ResultKind.NOT_LOOKED_AT]
    return max(said or counting, key=lambda result: order[result.id], default=None)


def _counting(results: Sequence[ResultFacts], surface_id: int | None) -> list[ResultFacts]:
    return [result for result in _about(results, surface_id) if result.counts_of(surface_id)]


def newest_word(results: Sequence[ResultFacts], surface_id: int | None) -> ResultFacts | None:
    """The pass by word that was said after what counts, if it is not what counts by itself."""
    order = place_in_order(results)
    counts = current_result(results, surface_id)
    words = [one for one in _counting(results, surface_id) if waits_for_paper(one)]
    newest = max(words, key=lambda one: order[one.id], default=None)
    if newest is None or (counts is not None and (frees(counts) or order[counts.id] > order[newest.id])):
        return None
    return newest


def _about(results: Iterable[ResultFacts], surface_id: int | None) -> list[ResultFacts]:
    return [one for one in results if one.state == ResultState.CURRENT and one.surface_id in {surface_id, None}]


def _before_a_change(results: Sequence[ResultFacts], surface_id: int | None) -> ResultFacts | None:
    order = place_in_order(results)
    past = [one for one in _about(results, surface_id) if not one.counts_of(surface_id)]
    return max(past, key=lambda result: order[result.id], default=None)


def standing(
    surface_id: int | None, results: Sequence[ResultFacts], corrections: Sequence[CorrectionFacts]
) -> Standing:
    """Where one inspection stands on a surface, from all its results and corrections (of this inspection only)."""
    owed = tuple(
        correction
        for correction in corrections
        if (surface_id is None or correction.surface_id in {surface_id, None}) and not is_cleared(correction, results)
    )
    result, word = current_result(results, surface_id), newest_word(results, surface_id)
    if word is not None:
        return Standing(
            words=f"{ResultKind(word.kind).value} by word, no card or report yet",
            by=said_by(word),
            day=word.day,
            result_id=word.id,
            visit_id=word.visit_id,
            owed=owed,
            word=word,
        )
    if result is None:
        before = _before_a_change(results, surface_id)
        words = f"owed anew: {before.kind} {show_date(before.day)}, before a change" if before else NOT_YET.words
        return Standing(words, owed=owed, before=before)
    kind = ResultKind(result.kind)
    return Standing(
        passed=frees(result),
        kind=kind,
        words=kind.value,
        by=said_by(result),
        day=result.day,
        part=result.part,
        result_id=result.id,
        visit_id=result.visit_id,
        photo=result.photo,
        owed=owed,
    )


def standings(
    inspection: InspectionFacts, results: Iterable[ResultFacts], corrections: Iterable[CorrectionFacts]
) -> dict[int | None, Standing]:
    """Where an inspection stands on each of its surfaces, or under None for the whole building."""
    own = [result for result in results if result.inspection_id == inspection.id]
    asked = [correction for correction in corrections if correction.inspection_id == inspection.id]
    return {place: standing(place, own, asked) for place in inspection.places}


def summary(by_place: Mapping[str, Standing]) -> str:
    """One line for an inspection, from the short name of each surface to where it stands: "Part passed: all but S"."""
    if len(by_place) == 1:
        return _sentence(next(iter(by_place.values())).words)
    passed = [name for name, found in by_place.items() if found.passed]
    held = [name for name, found in by_place.items() if not found.passed]
    if not held:
        small = [name for name, found in by_place.items() if found.kind == ResultKind.SMALL_ITEMS]
        return f"Passed, small items on {join_words(small)}" if small else "Passed"
    if passed:
        return (
            f"Part passed: all but {join_words(held)}"
            if len(held) <= len(passed)
            else f"Part passed: {join_words(passed)}"
        )
    return _none_passed(by_place)


def _none_passed(by_place: Mapping[str, Standing]) -> str:
    kinds = {found.kind for found in by_place.values()}
    for kind in (ResultKind.FAILED, ResultKind.PART_PASSED, ResultKind.SEEN_NEXT):
        if kind in kinds:
            named = [name for name, found in by_place.items() if found.kind == kind]
            return _sentence(kind.value) if kinds == {kind} else f"{_sentence(kind.value)}: {join_words(named)}"
    if words := [name for name, found in by_place.items() if found.word]:
        return f"Passed by word, no card or report yet: {join_words(words)}"
    return _sentence(NOT_YET.words)


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}"


def replaces(results: Iterable[ResultFacts], result_id: int) -> ResultFacts | None:
    """The mistyped result that this one stands in for, if any."""
    return next((result for result in results if result.replaced_by_id == result_id), None)


def still_owed(inspection: InspectionFacts, found: Mapping[int | None, Standing]) -> Collection[int | None]:
    """The places a next visit has to look at: what did not pass. Corrections that clear by a re-visit keep it owed."""
    return [place for place in inspection.places if not found[place].passed]


def to_show(
    inspection: InspectionFacts, results: Iterable[ResultFacts], corrections: Iterable[CorrectionFacts]
) -> tuple[CorrectionFacts, ...]:
    """What the inspector wants to see again at the next visit, and nothing else."""
    own = [result for result in results if result.inspection_id == inspection.id]
    return tuple(
        one
        for one in corrections
        if one.inspection_id == inspection.id and one.clears_by == ClearsBy.REVISIT and not is_cleared(one, own)
    )
