"""One correction: the inspector's words, its pictures, each step it went, and the next one."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.inspections import forms, store
from webapp.inspections.pages.book import read_book
from webapp.inspections.pages.marked import Marked, marked, spot_words
from webapp.inspections.pages.visits import CLEARS, FORMS, Choices
from webapp.inspections.rules.corrections import clearing, what_is_owed
from webapp.inspections.rules.facts import ChangeFacts, CorrectionFacts
from webapp.inspections.rules.kinds import ClearsBy, CorrectionState
from webapp.plan.guard import Here
from webapp.values.dates import show_date
from webapp.values.duration import show_minutes
from webapp.values.own_words import own


@dataclass(frozen=True, slots=True)
class CorrectionPage:
    """`cleared` says by whom and when, empty while it is owed. `mine`: my own word clears it."""

    sheet: Sheet
    correction: CorrectionFacts
    place: str
    inspection: str
    inspection_href: str
    visit_href: str
    result_href: str
    said: str
    cleared: str
    owed: str
    mine: bool
    by_picture: bool
    can_reopen: bool
    steps: tuple[tuple[str, str], ...]
    changes: tuple[ChangeFacts, ...]
    map: Marked | None
    """its surface drawn, with its mark; None where there is no drawing"""
    where: str
    likely: str
    ask_done: bool
    """clearing it on my word asks whether it is done"""
    do: str
    here: str
    form: FormState
    forms: Choices
    clears: Choices


def correction_page(
    session: Session, here: Here, correction_id: int, form: FormState | None = None, do: str = ""
) -> CorrectionPage:
    """`do`: done, sent, clear, reopen or words; without one the step that is next."""
    book = read_book(session, here)
    correction = store.get_correction(session, here.build.id, correction_id)
    inspection = book.inspection(correction.inspection_id)
    visit = next(each for each in book.visits if each.id == correction.visit_id)
    found = clearing(correction, book.results)
    steps = _steps(correction, cleared=found is not None)
    surface = book.surfaces[correction.surface_id] if correction.surface_id else None
    on = f", {show_date(found.on)}" if found and found.on and "visit of" not in found.by else ""
    where = ", ".join(part for part in (book.name(correction.surface_id), correction.place) if part)
    return CorrectionPage(
        sheet=here.sheet(f"V2-{inspection.position}", own("Inspections"), f"Correction {correction.number}"),
        correction=correction,
        place=where,
        inspection=inspection.name,
        inspection_href=f"{here.base}/inspections/{inspection.code}",
        visit_href=f"{here.base}/visits/{correction.visit_id}",
        result_href=f"{here.base}/results/{correction.result_id}",
        said=show_date(visit.day) if visit.day else "",
        cleared=f"Cleared by {found.by}{on}." if found else "",
        owed="" if found else what_is_owed(correction),
        mine=correction.clears_by == ClearsBy.OWN_WORD,
        by_picture=correction.clears_by == ClearsBy.PICTURE,
        can_reopen=correction.state != CorrectionState.OPEN,
        changes=store.list_correction_changes(session, correction_id),
        steps=steps,
        map=marked(session, here, surface, (correction,), book.results, correction) if surface else None,
        where=spot_words(here, surface, correction.x_nm, correction.y_nm) if surface else "",
        likely=show_minutes(correction.likely_min) if correction.likely_min else "",
        ask_done=correction.clears_by == ClearsBy.OWN_WORD and correction.state == CorrectionState.OPEN,
        do=do if do in dict(steps) else _next(correction, cleared=found is not None),
        here=f"{here.base}/corrections/{correction_id}",
        form=_state(form, correction, here),
        forms=FORMS,
        clears=CLEARS,
    )


def _state(form: FormState | None, correction: CorrectionFacts, here: Here) -> FormState:
    """What was typed, over how it stands: a page holds two forms, of which one was sent."""
    stands = forms.correction_state(correction, here.today)
    return FormState({**stands.typed, **form.typed}, form.errors) if form else stands


def _next(correction: CorrectionFacts, cleared: bool) -> str:
    """The step that comes next by itself."""
    if cleared:
        return ""
    if correction.state == CorrectionState.OPEN:
        return "done"
    return "sent" if correction.clears_by == ClearsBy.PICTURE and correction.state == CorrectionState.DONE else "clear"


def _steps(correction: CorrectionFacts, cleared: bool) -> tuple[tuple[str, str], ...]:
    """Every step it can go now, as (do, words)."""
    opened = correction.state != CorrectionState.OPEN
    reopening = (("reopen", "It is not done after all"),) if opened else ()
    if cleared:
        return reopening
    sending = (("sent", "A picture was sent"),) if correction.clears_by == ClearsBy.PICTURE else ()
    clearing_words = "Clear it on my word" if correction.clears_by == ClearsBy.OWN_WORD else "The inspector cleared it"
    return (
        ("done", "It is done"),
        *sending,
        ("clear", clearing_words),
        *reopening,
        ("words", "Change the words"),
    )
