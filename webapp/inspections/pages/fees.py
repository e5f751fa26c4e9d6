"""A fee that followed a visit or an extension, to be paid or paid; and all that are not paid yet."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.inspections import forms, store
from webapp.inspections.pages.book import read_book
from webapp.inspections.pages.clock import FeeLine, fee_lines, fee_words
from webapp.inspections.rules.facts import ChangeFacts, FeeFacts
from webapp.inspections.rules.record import fee_label
from webapp.plan.guard import Here
from webapp.values.dates import show_date
from webapp.values.own_words import own


@dataclass(frozen=True, slots=True)
class FeePage:
    """One fee, to be paid or paid."""

    sheet: Sheet
    currency: str
    fee: FeeFacts
    words: str
    visit_words: str
    visit_href: str
    spend_href: str
    action: str
    right: str
    """where it is put right; empty once it is paid"""
    changes: tuple[ChangeFacts, ...]
    form: FormState


@dataclass(frozen=True, slots=True)
class FeesPage:
    """Every fee not paid yet, which the sheet of spend shows beside what is paid."""

    sheet: Sheet
    currency: str
    fees: tuple[FeeLine, ...]
    total_cents: int
    back: str


def fee_page(session: Session, here: Here, fee_id: int, form: FormState | None = None) -> FeePage:
    fee = store.get_fee(session, here.build.id, fee_id)
    stands = forms.fee_state(fee, here.today)
    book = read_book(session, here)
    visit = next((each for each in book.visits if each.id == fee.visit_id), None)
    named = f"{book.inspection(visit.inspection_id).name}, {book.visit_line(visit).words.lower()}" if visit else ""
    return FeePage(
        sheet=here.sheet("V1", own("Permits"), "A fee"),
        currency=here.build.currency,
        fee=fee,
        words=fee_words(fee),
        visit_words=f"{named}, {show_date(visit.day)}" if visit and visit.day else named,
        visit_href=f"{here.base}/visits/{visit.id}" if visit else "",
        spend_href=f"{here.base}/spend/{fee.spend_id}" if fee.spend_id else "",
        action=f"{here.base}/fees/{fee_id}/pay",
        right=f"{here.base}/fees/{fee_id}/right" if fee.paid_on is None else "",
        changes=tuple(
            one for one in store.list_permit_changes(session, fee.permit_id) if one.field == fee_label(fee_id)
        ),
        form=FormState({**stands.typed, **form.typed}, form.errors) if form else stands,
    )


def fees_page(session: Session, here: Here) -> FeesPage:
    owed = tuple(fee for fee in store.list_fees(session, here.build.id) if fee.paid_on is None)
    return FeesPage(
        sheet=here.sheet("V1", own("Permits"), "Fees not paid yet"),
        currency=here.build.currency,
        fees=fee_lines(here.base, owed),
        total_cents=sum(fee.amount_cents for fee in owed),
        back=f"{here.base}/spend",
    )
