"""What one task took so far: the hours logged on it and what was spent on it, also as a panel in other pages."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.sheets import Sheet
from webapp.money.store import list_spend_of_task
from webapp.plan.guard import Here
from webapp.plan.store import get_task
from webapp.values.dates import show_day
from webapp.values.duration import show_minutes
from webapp.values.money import show_money
from webapp.workdays import store
from webapp.workdays.rules.hours import Hours

WHOSE = {"self": "mine", "unpaid helper": "a helper’s", "paid helper": "a paid helper’s", "hired": "hired"}


@dataclass(frozen=True, slots=True)
class TookLine:
    what: str
    detail: str
    right: str
    href: str


@dataclass(frozen=True, slots=True)
class TookPage:
    """`sum` in words: "6½ h my own, 2 h paid help logged, USD 84.00 spent."."""

    sheet: Sheet
    title: str
    sum: str
    days: tuple[TookLine, ...]
    spend: tuple[TookLine, ...]
    back: str


def took_page(session: Session, here: Here, task_id: int) -> TookPage:
    """Raises NotFound for a task of another build."""
    task = get_task(session, here.build.id, task_id)
    days, lines = (
        store.list_took(session, here.build.id, task_id),
        list_spend_of_task(session, here.build.id, task_id),
    )
    cents = sum(line.total_cents for line in lines)
    hours = ", ".join(_hours(days).words()) or "No hours"
    return TookPage(
        sheet=here.sheet("G4", "Workdays", "Time and cost so far"),
        title=task.title,
        sum=f"{hours} logged, {show_money(cents, here.build.currency)} spent.",
        days=tuple(_day(here, one) for one in days),
        spend=tuple(
            TookLine(
                line.what,
                f"Spend, {show_day(line.day, here.today)}",
                show_money(line.total_cents, here.build.currency),
                f"{here.base}/spend/{line.id}",
            )
            for line in lines
        ),
        back=f"{here.base}/tasks/{task_id}",
    )


def _hours(days: Iterable[store.TookFacts]) -> Hours:
    """By whose hands: one kind is never added to another."""
    sums = Counter[str]()
    for one in days:
        sums[one.who] += one.minutes or 0
    return Hours(sums["self"], sums["unpaid helper"], sums["paid helper"], sums["hired"])


def _day(here: Here, one: store.TookFacts) -> TookLine:
    hours = show_minutes(one.minutes) if one.minutes is not None else "hours not split"
    href = f"{here.base}/workdays/{one.workday_id}"
    return TookLine(show_day(one.day, here.today), f"Hours, {WHOSE.get(one.who, one.who)}", hours, href)
