"""V1: permits, each with its own clock; the sheet of one permit."""

from collections.abc import Iterator
from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.hired.store import hired_choices
from webapp.inspections import forms, store
from webapp.inspections.pages.book import read_book
from webapp.inspections.pages.clock import PermitLine, lapse_words, permit_line
from webapp.inspections.rules.facts import ChangeFacts
from webapp.inspections.rules.lapse import clock_of
from webapp.plan.guard import Here
from webapp.plan.store.lots import builds_beside, lot_name
from webapp.values.own_words import own
from webapp.values.words import join_words


@dataclass(frozen=True, slots=True)
class OtherLine:
    """A permit of another build on the same lot, with its own clock."""

    name: str
    words: str
    href: str


@dataclass(frozen=True, slots=True)
class PermitsPage:
    """V1. `lot` is empty while this build names none."""

    sheet: Sheet
    permits: tuple[PermitLine, ...]
    lot: str
    others: tuple[OtherLine, ...]
    lot_href: str
    offices: str
    offices_words: str
    calendar: str
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
    held_by: str
    hired: tuple[tuple[str, str], ...]
    form: FormState

    @property
    def questioned(self) -> bool:
        """Whether a day is doubted and can be insisted on."""
        return bool(self.form.errors) or bool(self.form.value("days_right"))


def permits_page(session: Session, here: Here) -> PermitsPage:
    book = read_book(session, here)
    offices = [each.name for each in book.offices.offices]
    return PermitsPage(
        sheet=here.sheet("V1", own("Permits")),
        permits=tuple(permit_line(book, permit) for permit in book.permits.values()),
        lot=lot_name(session, here.build.lot_id),
        others=tuple(_others(session, here)),
        lot_href=f"{here.base}/lot",
        offices=f"{here.base}/offices",
        offices_words=f"{join_words(offices)}."
        if offices
        else "Weekdays, notice, holidays: they make the days to ask by.",
        calendar=f"{here.base}/calendar",
        currency=here.build.currency,
        new=f"{here.base}/permits/new",
    )


def _others(session: Session, here: Here) -> Iterator[OtherLine]:
    """Each permit of every other build on the lot. What is read of each build is kept until it changes."""
    for build in builds_beside(session, here.build):
        kinds, results = store.list_inspections(session, build.id), store.list_results(session, build.id)
        permits = store.list_permits(session, build.id)
        if not permits:
            yield OtherLine(build.name, f"No {own('permit')} is written down.", f"{build.base}/permits")
        for permit in permits:
            words = lapse_words(permit, clock_of(permit, kinds, results), here.today)
            yield OtherLine(f"{build.name}: {permit.name}", words, f"{build.base}/permits/{permit.code}")


def permit_page(session: Session, here: Here, code: str = "", form: FormState | None = None) -> PermitPage:
    """The permit with that short name; a blank one when none is given."""
    back = f"{here.base}/permits"
    permit = store.get_permit(session, here.build.id, code) if code else None
    new = f"A new {own('permit')}"
    hired = hired_choices(session, here.build.id)
    return PermitPage(
        sheet=here.sheet(f"V1-{permit.code}" if permit else "V1", own("Permits"), permit.name if permit else new),
        heading=permit.name if permit else new,
        line=permit_line(read_book(session, here), permit) if permit else None,
        changes=store.list_permit_changes(session, permit.id) if permit else (),
        currency=here.build.currency,
        action=f"{back}/{permit.code}" if permit else back,
        back=back,
        held_by=dict(hired).get(str(permit.hired_id), "") if permit else "",
        hired=(("", "Mine"), *hired) if hired else (),
        form=form or forms.permit_state(permit),
    )
