"""V1, offices: who comes on which weekdays, how much notice they want, and on which days nobody works there."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.inspections import forms, store
from webapp.inspections.rules.booking import ClosedFacts, OfficeFacts, Offices
from webapp.inspections.rules.facts import ChangeFacts, InspectionFacts
from webapp.inspections.rules.wording import closed_words, weekday_words
from webapp.inspections.store.holidays import holidays_in
from webapp.plan.guard import Here
from webapp.values.dates import WEEKDAYS, show_date, show_day, show_long_day
from webapp.values.own_words import own
from webapp.values.words import join_words, plural

Choices = tuple[tuple[str, str], ...]
DAYS: Choices = tuple((str(number), name[:3]) for number, name in enumerate(WEEKDAYS))
SOURCES = ("my authority's handout", "my inspector's word", "front of my card", "my guess")
AHEAD = 366
"""days of which the public holidays are shown"""


@dataclass(frozen=True, slots=True)
class OfficeLine:
    name: str
    comes: str
    asking: str
    used: str
    href: str


@dataclass(frozen=True, slots=True)
class OfficesPage:
    sheet: Sheet
    offices: tuple[OfficeLine, ...]
    without: str
    """inspections that have no office"""
    new: str
    back: str


@dataclass(frozen=True, slots=True)
class DayOff:
    """One line of days off. `drop`: where it can be taken out; `works`: the day, to say that the office works on it."""

    when: str
    what: str
    drop: str = ""
    works: str = ""


@dataclass(frozen=True, slots=True)
class OfficePage:
    """One office to read and put right, or a new one when `days` is None."""

    sheet: Sheet
    heading: str
    line: OfficeLine | None
    reach: str
    source: str
    week: tuple[tuple[str, bool], ...]
    days: tuple[DayOff, ...]
    changes: tuple[ChangeFacts, ...]
    example: str
    action: str
    closed_action: str
    back: str
    weekdays: Choices
    sources: Choices
    form: FormState
    closed_form: FormState


def _line(here: Here, office: OfficeFacts, kinds: tuple[InspectionFacts, ...]) -> OfficeLine:
    hours = f", {office.from_time} to {office.until_time}" if office.from_time and office.until_time else ""
    off = ""
    if office.cancel_by:
        before = f", {plural(office.cancel_days, 'working day')} before" if office.cancel_days else " of the day"
        off = f" Call off by {office.cancel_by}{before}."
    used = [each.name for each in kinds if each.office_id == office.id]
    return OfficeLine(
        name=office.name,
        comes=f"Comes on {weekday_words(office.weekdays)}{hours}",
        asking=f"{plural(office.notice_days, 'working day')} of notice, asked for by {office.ask_by}.{off}",
        used=f"For {join_words(used)}." if used else f"No {own('inspection')} is asked for here yet.",
        href=f"{here.base}/offices/{office.id}",
    )


def offices_page(session: Session, here: Here) -> OfficesPage:
    kinds = store.list_inspections(session, here.build.id)
    without = [each.name for each in kinds if each.office_id is None]
    return OfficesPage(
        sheet=here.sheet("V1", own("Permits"), "Offices and their days"),
        offices=tuple(_line(here, office, kinds) for office in store.list_offices(session, here.build.id)),
        without=join_words(without),
        new=f"{here.base}/offices/new",
        back=f"{here.base}/permits",
    )


def office_page(
    session: Session,
    here: Here,
    office_id: int | None = None,
    form: FormState | None = None,
    closed_form: FormState | None = None,
) -> OfficePage:
    """The office with that id; a blank one when none is given."""
    listed = f"{here.base}/offices"
    office = store.get_office(session, here.build.id, office_id) if office_id is not None else None
    kinds = store.list_inspections(session, here.build.id)
    action = f"{listed}/{office.id}" if office else listed
    return OfficePage(
        sheet=here.sheet("V1", own("Permits"), office.name if office else "A new office"),
        heading=office.name if office else "A new office",
        line=_line(here, office, kinds) if office else None,
        reach=office.reach if office else "",
        source=office.source if office else "",
        week=tuple((name[:2], number in office.weekdays) for number, name in enumerate(WEEKDAYS)) if office else (),
        days=tuple(_days_off(session, here, office)) if office else (),
        changes=store.list_office_changes(session, here.build.id, office.id) if office else (),
        example=_example(store.read_offices(session, here.build.id), office, here.today) if office else "",
        action=action,
        closed_action=f"{action}/closed",
        back=listed,
        weekdays=DAYS,
        sources=tuple((source, source) for source in SOURCES),
        form=form or forms.office_state(office),
        closed_form=closed_form or FormState.of(),
    )


def _days_off(session: Session, here: Here, office: OfficeFacts) -> Iterator[DayOff]:
    """Own closed days that are not long over, and the calendar's holidays of the next year, by day."""
    until = here.today + timedelta(days=AHEAD)
    own = [
        each
        for each in store.list_closed_days(session, here.build.id)
        if each.office_id in {None, office.id} and (each.until_day or each.day) >= here.today
    ]
    lines = [(each.day, _own(here, office, each)) for each in own]
    worked = [each for each in own if each.open]
    for year in {here.today.year, until.year}:
        for day, name in holidays_in(office.calendar, year).items() if office.calendar else ():
            if here.today <= day <= until and not any(day in each for each in worked):
                lines.append(
                    (
                        day,
                        DayOff(show_long_day(day), f"{name}, by the calendar {office.calendar}", works=day.isoformat()),
                    )
                )
    yield from (line for _, line in sorted(lines, key=lambda each: each[0]))


def _own(here: Here, office: OfficeFacts, each: ClosedFacts) -> DayOff:
    when = show_long_day(each.day)
    if each.until_day:
        when = f"{show_day(each.day, here.today)} to {show_long_day(each.until_day)}"
    return DayOff(when, closed_words(each), drop=f"{here.base}/offices/{office.id}/closed/{each.id}/drop")


def _example(offices: Offices, office: OfficeFacts, today: date) -> str:
    """The first visit that can still be asked for today: a way to check the days against the office's own word."""
    terms = offices.terms(office.id)
    days = (today + timedelta(days=ahead) for ahead in range(AHEAD))
    for day in days:
        if terms.visits_on(day) and terms.ask_by(day) >= today:
            by = f"{show_long_day(terms.ask_by(day))} {terms.ask_hour}"
            return f"The next visit that can be asked for: {show_long_day(day)}, asked for by {by}."
    return f"By these days it comes on no day until {show_date(today + timedelta(days=AHEAD))}."
