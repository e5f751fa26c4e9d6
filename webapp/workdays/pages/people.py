"""Everybody who helped, and who said yes to being named."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.sheets import Sheet
from webapp.plan.guard import Here
from webapp.values.dates import show_date
from webapp.values.words import plural
from webapp.workdays.store.people import list_people


@dataclass(frozen=True, slots=True)
class PersonLine:
    """`yes`: whether they may be named; `button` says what pressing it writes down."""

    name: str
    detail: str
    yes: bool
    action: str
    button: str


@dataclass(frozen=True, slots=True)
class PeoplePage:
    sheet: Sheet
    days: str
    people: tuple[PersonLine, ...]


def people_page(session: Session, here: Here) -> PeoplePage:
    lines = []
    for one in list_people(session, here.build.id):
        yes = one.said_yes_on is not None
        said = f"Said yes on {show_date(one.said_yes_on)}" if one.said_yes_on else "Stays private"
        detail = f"{said}. Named on {plural(one.days, 'day note')}." if one.days else f"{said}."
        button = f"{one.name} took it back" if yes else f"{one.name} said yes"
        lines.append(PersonLine(one.name, detail, yes, f"{here.base}/people/{one.id}", button))
    return PeoplePage(here.sheet("G4", "Workdays", "Who helps"), f"{here.base}/workdays", tuple(lines))
