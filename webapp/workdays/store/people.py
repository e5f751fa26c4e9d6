"""Who helped, and who said yes to being named."""

from sqlalchemy import func, select
from sqlmodel import Session, col

from webapp.core.database import kept_list, rows
from webapp.workdays.models import Person, WorkdayPerson
from webapp.workdays.rules.people import PersonFacts


@kept_list
def list_people(session: Session, build_id: int) -> tuple[PersonFacts, ...]:
    """Everybody, by name. One query."""
    days = select(func.count()).where(col(WorkdayPerson.person_id) == col(Person.id)).correlate(Person)
    wanted = (
        select(col(Person.id), col(Person.name), col(Person.said_yes_on), days.scalar_subquery())
        .where(col(Person.build_id) == build_id)
        .order_by(func.lower(col(Person.name)), col(Person.id))
    )
    return tuple(PersonFacts(*row) for row in rows(session, wanted))


def private_names(session: Session, build_id: int) -> tuple[str, ...]:
    """Names that may stand in no public text."""
    return tuple(one.name for one in list_people(session, build_id) if one.said_yes_on is None)


def day_people(session: Session, workday_id: int) -> tuple[str, ...]:
    """Names of those who helped on a day, as they were written."""
    wanted = (
        select(col(Person.name))
        .join(WorkdayPerson, col(WorkdayPerson.person_id) == col(Person.id))
        .where(col(WorkdayPerson.workday_id) == workday_id)
        .order_by(col(WorkdayPerson.id))
    )
    return tuple(row[0] for row in rows(session, wanted))
