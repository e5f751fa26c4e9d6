"""V1: permits, each with its own clock; the sheet of one permit."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.inspections import forms, store
from webapp.inspections.pages.book import read_book
from webapp.inspections.pages.clock import PermitLine, permit_line
from webapp.inspections.rules.facts import ChangeFacts
from webapp.plan.guard import Here


@dataclass(frozen=True, slots=True)
class PermitsPage:
    sheet: Sheet
    permits: tuple[PermitLine, ...]
    currency: str
    new: str


@dataclass(frozen=True, slots=True)
class PermitPage:
    """One permit to read and put right, or a new one when `line` is None."""

    sheet: Sheet
    heading: str
    line: PermitLine | None
    changes: tuple[ChangeFacts, ...]
    currency: str
    action: str
    back: str
    form: FormState

    @property
    def questioned(self) -> bool:
        """Whether a day is doubted and can be insisted on."""
        return bool(self.form.errors) or bool(self.form.value("days_right"))


def permits_page(session: Session, here: Here) -> PermitsPage:
    book = read_book(session, here)
    return PermitsPage(
        sheet=here.sheet("V1", "Permits"),
        permits=tuple(permit_line(book, permit) for permit in book.permits.values()),
        currency=here.build.currency,
        new=f"{here.base}/permits/new",
    )


def permit_page(session: Session, here: Here, code: str = "", form: FormState | None = None) -> PermitPage:
    """The permit with that short name; a blank one when none is given."""
    back, currency = f"{here.base}/permits", here.build.currency
    if not code:
        sheet = here.sheet("V1", "Permits", "A new permit")
        return PermitPage(sheet, "A new permit", None, (), currency, back, back, form or forms.permit_state(None))
    permit = store.get_permit(session, here.build.id, code)
    return PermitPage(
        sheet=here.sheet(f"V1-{permit.code}", "Permits", permit.name),
        heading=permit.name,
        line=permit_line(read_book(session, here), permit),
        changes=store.list_permit_changes(session, permit.id),
        currency=currency,
        action=f"{back}/{permit.code}",
        back=back,
        form=form or forms.permit_state(permit),
    )
