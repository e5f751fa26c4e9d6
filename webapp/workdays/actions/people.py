"""Names of those who help, and whether they may be named."""

from collections.abc import Sequence
from datetime import date

from sqlalchemy import delete
from sqlmodel import Session, col

from webapp.values.errors import NotFound
from webapp.workdays.models import Person, WorkdayPerson
from webapp.workdays.store.people import list_people


def know(session: Session, build_id: int, name: str) -> int:
    """The id of a name, put down if it is new: private until its owner said yes."""
    for one in list_people(session, build_id):
        if one.name.casefold() == name.casefold():
            return one.id
    person = Person(build_id=build_id, name=name)
    session.add(person)
    session.flush()
    return person.row_id


def name_helpers(session: Session, build_id: int, workday_id: int, names: Sequence[str]) -> None:
    """These and nobody else helped on that day."""
    session.exec(delete(WorkdayPerson).where(col(WorkdayPerson.workday_id) == workday_id))
    for person_id in dict.fromkeys([know(session, build_id, name) for name in names]):
        session.add(WorkdayPerson(workday_id=workday_id, person_id=person_id))
    session.flush()


def say_yes(session: Session, build_id: int, person_id: int, on: date | None) -> str:
    """They said yes on a day, or (None) take it back. Gives their name."""
    person = session.get(Person, person_id)
    if person is None or person.build_id != build_id:
        raise NotFound("There is nobody of that number in this build.")
    person.said_yes_on = on
    session.add(person)
    session.flush()
    return person.name
