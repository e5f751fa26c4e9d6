"""The page after a day is saved: what it freed, what is still stopped, where to begin next time."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.sheets import Sheet
from webapp.plan.guard import Here
from webapp.readiness.rules import keys
from webapp.readiness.rules.network import Node, Root
from webapp.readiness.store import Site, site
from webapp.values.dates import show_date, show_long_day
from webapp.values.words import join_words, sentence_list
from webapp.workdays import store
from webapp.workdays.rules.freed import from_address

MOST_STOPPED = 4
MOST_NAMED = 2


@dataclass(frozen=True, slots=True)
class Line:
    """A thing with a way to it."""

    title: str
    detail: str
    href: str


@dataclass(frozen=True, slots=True)
class StillStopped:
    """A task that cannot start yet: the first causes in `detail`, and whom all of them wait for."""

    title: str
    detail: str
    href: str
    letter: str
    whom: str


@dataclass(frozen=True, slots=True)
class SavedPage:
    sheet: Sheet
    sentence: str
    hours: tuple[str, ...]
    tasks: tuple[Line, ...]
    covers: tuple[Line, ...]
    stopped: tuple[StillStopped, ...]
    more_stopped: int
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
    stopped = _stopped(now)
    path = f"{here.base}/workdays/{workday_id}"
    return SavedPage(
        sheet=here.sheet("G4", "Workdays", "Saved"),
        sentence=show_long_day(day.words.day),
        hours=day.words.hours.words(),
        tasks=tuple(_task(now, keys.id_of(key)) for key in came_free if key.startswith("task:")),
        covers=tuple(_cover(now, keys.id_of(key)) for key in came_free if key.startswith("cover:")),
        stopped=tuple(_still_stopped(now, node) for node in stopped[:MOST_STOPPED]),
        more_stopped=max(0, len(stopped) - MOST_STOPPED),
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


def _stopped(now: Site) -> list[Node]:
    """Open tasks that cannot start, in the builder's order: the nearest first."""
    waits = (node for node in now.network.nodes if node.kind == "task" and not node.settled)
    return sorted((node for node in waits if not now.network.can_start(node.key)), key=lambda node: node.rank)


def _still_stopped(now: Site, node: Node) -> StillStopped:
    roots = now.network.roots(node.key)
    named = [_cause(root) for root in roots[:MOST_NAMED]]
    if len(roots) > MOST_NAMED:
        named.append(f"{len(roots) - MOST_NAMED} more")
    whom = tuple(dict.fromkeys(str(root.waits_for) for root in roots))
    return StillStopped(
        title=node.title,
        detail=sentence_list(named),
        href=f"{now.build.base}/what-stops?task={keys.id_of(node.key)}",
        letter=roots[0].waits_for.letter if roots else "",
        whom=join_words(whom),
    )


def _cause(root: Root) -> str:
    return f"{root.node.title} (until {show_date(root.until)})" if root.until else root.node.title
