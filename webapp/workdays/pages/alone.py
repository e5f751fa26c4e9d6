"""Before working alone: what to tell and to whom, the work it is about, and what was told."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.clock import in_utc
from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.plan.guard import Here
from webapp.plan.rules.dangers import ALONE, ALONE_SOURCE, BEFORE, NO_PROMISE, Before, how_words
from webapp.plan.rules.kinds import Who
from webapp.plan.store.dangers import dangers_of
from webapp.readiness.rules import keys
from webapp.readiness.store import Site, site
from webapp.workdays.rules.alone import ToldFacts, is_over
from webapp.workdays.store.alone import open_told, told_before, told_on


@dataclass(frozen=True, slots=True)
class ToldLine:
    """One telling and how it ended."""

    words: str
    detail: str


@dataclass(frozen=True, slots=True)
class AlonePage:
    sheet: Sheet
    href: str
    today: str
    form: FormState
    now: str
    """what is told and not ended; empty when nothing is"""
    over: bool
    tell: tuple[str, ...]
    tell_source: str
    before: tuple[Before, ...]
    """of the work that can be begun alone now"""
    no_promise: str
    tasks: tuple[tuple[str, str], ...]
    task_words: tuple[str, ...]
    whom: tuple[str, ...]
    told: tuple[ToldLine, ...]


def dangerous(session: Session, found: Site) -> dict[int, str]:
    """Tasks with a ticked danger that are under way or can start, for one alone, in words by id."""
    dangers = dangers_of(session, found.build.id)
    free = {keys.id_of(node.key) for node in found.network.startable()}
    return {
        task.id: f"{task.title}: {how_words(dangers[task.id])}"
        for task in found.record.tasks
        if task.id in dangers and task.who == Who.SELF and (task.state == "under way" or task.id in free)
    }


def told_line(told: ToldFacts) -> ToldLine:
    at = f"told at {in_utc(told.told_at).astimezone():%H:%M}"
    if told.ended_at is None:
        return ToldLine(told.words(), f"{at}, not said yet that I am back")
    return ToldLine(told.words(), f"{at}, {told.ended_how} at {in_utc(told.ended_at).astimezone():%H:%M}")


def alone_page(session: Session, here: Here, hour: str, task: str = "", form: FormState | None = None) -> AlonePage:
    work = dangerous(session, site(session, here.build, here.today))
    dangers = dangers_of(session, here.build.id)
    known = {danger for task_id in work for danger in dangers[task_id]}
    open_now, before = open_told(session, here.build.id), told_before(session, here.build.id)
    defaults = FormState.of(whom=before[0] if before else "", task=task)
    return AlonePage(
        sheet=here.sheet("G4", "Workdays", "Working alone"),
        href=f"{here.base}/alone",
        today=f"{here.base}/today",
        form=form or defaults,
        now=open_now.words() if open_now else "",
        over=open_now is not None and is_over(open_now, here.today, hour),
        tell=ALONE,
        tell_source=ALONE_SOURCE,
        before=tuple(found for danger, found in BEFORE.items() if danger in known),
        no_promise=NO_PROMISE,
        tasks=(("", "Not said"), *((str(task_id), words) for task_id, words in work.items())),
        task_words=tuple(work.values()),
        whom=before,
        told=tuple(told_line(one) for one in told_on(session, here.build.id, here.today)),
    )
