"""One result: what was said, what it rests on, what became of it, and the two ways to put it right."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.hired.rules.kinds import WaitKind
from webapp.hired.store import HiredFacts, list_hired
from webapp.inspections import store
from webapp.inspections.actions.hired import SHOWS
from webapp.inspections.forms.fields import place_name
from webapp.inspections.pages.book import CorrectionLine, read_book
from webapp.inspections.pages.visits import KINDS, PAPERS, Choices, choices_of_hired
from webapp.inspections.rules.facts import ChangeFacts, ResultFacts
from webapp.inspections.rules.kinds import Evidence, ResultKind, ResultState
from webapp.inspections.rules.results import EFFECTS, evidence_words, replaces, said_by, waits_for_paper
from webapp.papers.store import paper_by_id
from webapp.plan.guard import Here
from webapp.values.dates import show_date
from webapp.values.own_words import own

ATTACHED: Choices = tuple(one for one in PAPERS if one[0] not in {Evidence.MY_NOTE, Evidence.THEIR_WORD})


@dataclass(frozen=True, slots=True)
class ResultPage:
    sheet: Sheet
    result: ResultFacts
    heading: str
    inspection: str
    inspection_href: str
    visit_href: str
    place: str
    means: str
    paper: str
    is_current: bool
    on_word: bool
    """a pass by word, which waits for its card or report"""
    bare: bool
    """no paper is attached yet"""
    hired: Choices
    """trades that can have passed it on, to choose from"""
    passed_on: tuple[str, str] | None
    """where the trade stands that passed it on, and what it is called"""
    kept: tuple[str, str] | None
    """where the paper is kept that it rests on, and its name"""
    waits: Choices
    """what is waited for from that trade, which the card may be"""
    state_words: str
    other_href: str
    other_words: str
    corrections: tuple[CorrectionLine, ...]
    changes: tuple[ChangeFacts, ...]
    do: str
    here: str
    places: Choices
    kinds: Choices
    papers: Choices
    form: FormState


def _means(kind: ResultKind) -> str:
    effect = EFFECTS[kind]
    if effect.frees:
        owed = f" {effect.owed[:1].upper()}{effect.owed[1:]} stay owed and stop the cover." if effect.owed else ""
        return f"It frees this surface of this {own('inspection')}.{owed}"
    return f"It frees nothing. Still owed: {effect.owed}."


def _state_words(result: ResultFacts) -> str:
    if result.state == ResultState.CURRENT and result.reopened:
        return "It was said before a change from what was approved, so it counts no more there. It stays readable."
    if result.state == ResultState.CURRENT or result.changed_on is None:
        return ""
    day, why = show_date(result.changed_on), result.changed_why
    if result.state == ResultState.WITHDRAWN:
        return f"Taken back on {day} by {result.changed_who}: {why}"
    return f"My mistake, put right on {day}: {why}"


def waits_shown(trade: HiredFacts | None) -> Choices:
    """What is waited for from a trade that a card or report of its result would be."""
    waits = trade.waits if trade else ()
    return tuple((str(one.id), one.words) for one in waits if one.open and WaitKind(one.kind) in SHOWS)


def result_page(
    session: Session, here: Here, result_id: int, form: FormState | None = None, do: str = ""
) -> ResultPage:
    """`do`: withdraw or correct shows that form; anything else none."""
    book = read_book(session, here)
    result = store.get_result(session, here.build.id, result_id)
    inspection = book.inspection(result.inspection_id)
    older = replaces(book.results, result_id)
    other = result.replaced_by_id or (older.id if older else None)
    trade = next((one for one in list_hired(session, here.build.id) if one.id == result.hired_id), None)
    waits = waits_shown(trade)
    paper = paper_by_id(session, here.build.id, result.paper_id) if result.paper_id else None
    blank = FormState.of(
        on=here.today.isoformat(),
        place=place_name(result.surface_id),
        kind=result.kind,
        part=result.part,
        evidence=Evidence.CARD.value if do == "paper" else result.evidence,
        signed_by=result.signed_by if do != "paper" else "",
        hired=str(result.hired_id or ""),
        wait=waits[0][0] if len(waits) == 1 else "",
    )
    return ResultPage(
        sheet=here.sheet(
            f"V2-{inspection.position}", own("Inspections"), f"{inspection.name}, {book.name(result.surface_id)}"
        ),
        result=result,
        heading=f"{book.name(result.surface_id)}: {result.kind}",
        inspection=inspection.name,
        inspection_href=f"{here.base}/inspections/{inspection.code}",
        visit_href=f"{here.base}/visits/{result.visit_id}",
        place=book.name(result.surface_id),
        means="" if result.reopened or waits_for_paper(result) else _means(ResultKind(result.kind)),
        paper=said_by(result),
        is_current=result.state == ResultState.CURRENT,
        on_word=waits_for_paper(result),
        bare=evidence_words(result) in {Evidence.MY_NOTE, Evidence.THEIR_WORD},
        hired=choices_of_hired(session, here.build.id) if do != "paper" else (),
        passed_on=(f"{here.base}/hired/{trade.code}", f"the {trade.trade}") if trade else None,
        kept=(f"{here.base}/papers/{paper.code}", f"{paper.code} {paper.name}") if paper else None,
        waits=(("", "Nothing of it"), *waits) if waits else (),
        state_words=_state_words(result),
        other_href=f"{here.base}/results/{other}" if other else "",
        other_words="The result that stands in its place"
        if result.replaced_by_id
        else "The mistyped one it stands in for",
        corrections=book.correction_lines(tuple(each for each in book.corrections if each.result_id == result_id)),
        changes=store.list_visit_changes(session, result.visit_id),
        do=do if result.state == ResultState.CURRENT and do in {"", "withdraw", "correct", "paper"} else "",
        here=f"{here.base}/results/{result_id}",
        places=tuple((place_name(place), book.name(place)) for place in inspection.places),
        kinds=KINDS,
        papers=ATTACHED if do == "paper" else PAPERS,
        form=form or blank,
    )
