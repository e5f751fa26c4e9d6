"""An extension: asking for it, what was said to it; and the facts to print with the request."""

from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.inspections import forms, store
from webapp.inspections.pages.book import read_book
from webapp.inspections.pages.clock import FeeLine, PermitLine, extension_words, fee_lines, permit_line
from webapp.inspections.rules.clocks import ExtensionFacts
from webapp.inspections.rules.facts import PermitFacts
from webapp.inspections.rules.lapse import clock_of
from webapp.papers.store import paper_choices
from webapp.plan.guard import Here
from webapp.values.own_words import own

Choices = tuple[tuple[str, str], ...]
ANSWERS: Choices = (("granted", "Granted"), ("refused", "Refused"))


@dataclass(frozen=True, slots=True)
class ExtensionPage:
    """One request for more time; a blank one when `extension` is None."""

    sheet: Sheet
    permit: PermitLine
    extension: ExtensionFacts | None
    words: str
    photo: str
    paper: str
    fees: tuple[FeeLine, ...]
    currency: str
    action: str
    back: str
    facts: str
    answers: Choices
    papers: Choices
    ask_form: FormState
    form: FormState

    @property
    def questioned(self) -> bool:
        return bool(self.form.errors)


def extension_page(
    session: Session,
    here: Here,
    permit: PermitFacts,
    extension: ExtensionFacts | None = None,
    ask_form: FormState | None = None,
    form: FormState | None = None,
) -> ExtensionPage:
    book = read_book(session, here)
    listed = f"{here.base}/permits/{permit.code}"
    papers = paper_choices(session, here.build.id)
    state = forms.extension_state(extension, here.today)
    fee_id = extension.fee_id if extension else None
    return ExtensionPage(
        sheet=here.sheet(f"V1-{permit.code}", own("Permits"), "More time"),
        permit=permit_line(book, permit),
        extension=extension,
        words=extension_words(extension) if extension else "",
        photo=extension.photo if extension else "",
        paper=dict(papers).get(str(extension.paper_id), "") if extension and extension.paper_id else "",
        fees=fee_lines(here.base, tuple(fee for fee in book.fees if fee.id == fee_id)),
        currency=here.build.currency,
        action=f"{here.base}/extensions/{extension.id}" if extension else f"{listed}/extensions",
        back=listed,
        facts=f"{listed}/facts",
        answers=ANSWERS,
        papers=(("", "None of these"), *papers),
        ask_form=ask_form or state,
        form=form or state,
    )


def rules_end(session: Session, here: Here, permit: PermitFacts) -> date | None:
    """The last day by the permit's own rules, whatever was granted."""
    inspections = store.list_inspections(session, here.build.id)
    clock = clock_of(permit, inspections, store.list_results(session, here.build.id))
    return clock.deciding.last_day if clock and clock.deciding else None
