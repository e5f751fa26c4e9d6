"""The page after a day is saved: what it freed, what is still stopped, where to begin next time."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.sheets import Sheet
from webapp.plan.guard import Here
from webapp.readiness.rules import keys
from webapp.readiness.rules.network import Root
from webapp.readiness.store import Site, site
from webapp.values.dates import show_date, show_long_day
from webapp.values.words import join_words, plural
from webapp.workdays import store
from webapp.workdays.rules.freed import from_address

MOST_STOPS = 5
MOST_NAMED = 2


@dataclass(frozen=True, slots=True)
class Line:
    """A thing with a way to it."""

    title: str
    detail: str
    href: str


@dataclass(frozen=True, slots=True)
class StillStops:
    """One cause that is not mine to begin, whom it waits for, and what it holds up."""

    title: str
    detail: str
    href: str
    letter: str
    whom: str
    frees: str


@dataclass(frozen=True, slots=True)
class SavedPage:
    sheet: Sheet
    sentence: str
    hours: tuple[str, ...]
    tasks: tuple[Line, ...]
    covers: tuple[Line, ...]
    stops: tuple[StillStops, ...]
    more_stops: int
    next_step: str
    pictures: int
    day: str
    what_stops: str
    amend: str


def saved_page(session: Session, here: Here, workday_id: int, freed: str) -> SavedPage:
    """`freed` comes from the address: only what is free in the record is shown as free."""
    day = store.get_day(session, here.build.id, workday_id)
    now = site(session, here.build, here.today)
    came_free = [key for key in from_address(freed) if key in now.network and now.network.can_start(key)]
    waiting = now.network.waiting()
    path = f"{here.base}/workdays/{workday_id}"
    return SavedPage(
        sheet=here.sheet("G4", "Workdays", "Saved"),
        sentence=show_long_day(day.words.day),
        hours=day.words.hours.words(),
        tasks=tuple(_task(now, keys.id_of(key)) for key in came_free if key.startswith("task:")),
        covers=tuple(_cover(now, keys.id_of(key)) for key in came_free if key.startswith("cover:")),
        stops=tuple(_stop(now, root) for root in waiting[:MOST_STOPS]),
        more_stops=max(0, len(waiting) - MOST_STOPS),
        next_step=day.words.next_step,
        pictures=len(store.day_photo_ids(session, workday_id)),
        day=path,
        what_stops=f"{here.base}/what-stops",
        amend=f"{path}/amend",
    )


def _task(now: Site, task_id: int) -> Line:
    task = now.record.task[task_id]
    phase = next(phase.title for phase in now.record.phases if phase.id == task.phase_id)
    return Line(task.title, phase, f"{now.build.base}/tasks/{task_id}")


def _cover(now: Site, surface_id: int) -> Line:
    surface = now.record.surface[surface_id]
    return Line(
        f"{surface.name} may be covered",
        "Nothing that is on record stops it.",
        f"{now.build.base}/surfaces/{surface.code}/before-cover",
    )


def _stop(now: Site, root: Root) -> StillStops:
    until = f"until {show_date(root.until)}" if root.until else ""
    named = [now.network.node(key).title for key in root.frees[:MOST_NAMED]]
    rest = root.holds_up - len(named)
    if rest > 0:
        named.append(f"{plural(rest, 'more thing')} behind it")
    return StillStops(
        title=root.node.title,
        detail=", ".join(part for part in (root.node.detail, until) if part),
        href=root.node.href,
        letter=root.waits_for.letter,
        whom=str(root.waits_for),
        frees=join_words(named),
    )
