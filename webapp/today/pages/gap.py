"""Coming back after a while: at most five things, the permit first, and one first step under two hours."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.inspections.rules.kinds import Outcome
from webapp.plan.rules.waits import earliest_end
from webapp.plan.store.booked import list_booked
from webapp.plan.store.dangers import dangers_of
from webapp.readiness.pages.lapsing import Lapse
from webapp.readiness.rules import keys
from webapp.readiness.rules.network import Root
from webapp.readiness.store import Site
from webapp.today.pages.start import start_line
from webapp.today.rules.fits import first_step
from webapp.values.dates import in_days, show_day
from webapp.values.own_words import own
from webapp.values.words import plural

A_GAP = 21
"""days without a day logged, after which it is a coming back"""
AT_MOST = 5


@dataclass(frozen=True, slots=True)
class GapLine:
    title: str
    detail: str
    href: str


@dataclass(frozen=True, slots=True)
class ComingBack:
    """`more`: how much else came due meanwhile, only counted. `whole`: the way to the sheet as it always is."""

    sentence: str
    lines: tuple[GapLine, ...]
    more: str
    whole: str


def _visits(found: Site) -> Iterator[GapLine]:
    """Visits whose day has passed and of which nobody wrote down how they went."""
    kinds = {one.id: one for one in found.record.inspections}
    for visit in found.record.visits:  # by day
        if visit.day is None or visit.day >= found.today or visit.outcome not in {Outcome.PLANNED, Outcome.ASKED}:
            continue
        asked = visit.outcome == Outcome.ASKED
        says = "Write down how it went." if asked else "It was planned, not asked for. Move it, or write what came."
        name = kinds[visit.inspection_id].name
        yield GapLine(
            f"{name}: did they come?",
            f"The visit was to be {show_day(visit.day, found.today)}. {says}",
            f"{found.build.base}/visits/{visit.id}",
        )


def _booked(session: Session, found: Site) -> Iterator[GapLine]:
    """Trucks, helpers, hired hands and machines that were to come meanwhile."""
    for one in list_booked(session, found.build.id):
        if one.ahead and one.day is not None and one.day < found.today:
            says = f"Was to be here {show_day(one.day, found.today)}. Say so, or give it another day."
            yield GapLine(f"{one.what}: did it come?", says, f"{found.build.base}/booked/{one.id}")


def _waits(found: Site, last_day: date) -> Iterator[GapLine]:
    """What dried, cured or was promised meanwhile."""
    for root in found.network.waiting():
        if root.until and last_day <= root.until < found.today:
            yield GapLine(root.node.title, f"Was due {show_day(root.until, found.today)}. Is it so?", root.node.href)
    for task in found.record.tasks:
        over = earliest_end(task.done_on, task.wait_days)
        if over and last_day < over <= found.today:
            says = f"{(task.wait_reason or 'The wait').capitalize()} over since {show_day(over, found.today)}."
            yield GapLine(task.title, f"{says} What waited for it can go on.", f"{found.build.base}/tasks/{task.id}")


def _step(found: Site, root: Root) -> GapLine:
    line = start_line(found, root)
    time = f"{line.time}. " if line.time else ""
    return GapLine(f"A first step: {line.title}", f"{time}{line.detail}".strip(), line.href)


def _first_step(session: Session, found: Site) -> Root | None:
    """What is ticked as no work for one alone is not where one begins again, while there is something else."""
    roots, dangers = found.network.every_root(), dangers_of(session, found.build.id)
    plain = [root for root in roots if not (root.node.kind == "task" and keys.id_of(root.node.key) in dangers)]
    return first_step(plain) or first_step(roots)


def _permit(lapse: Lapse) -> GapLine:
    return GapLine(f"The {own('permit')} first", lapse.sentence + (f" {lapse.near}" if lapse.near else ""), lapse.href)


def coming_back(session: Session, found: Site, last_day: date | None, lapse: Lapse | None) -> ComingBack | None:
    """None while there is no gap, or no day was ever logged."""
    if last_day is None or (found.today - last_day).days < A_GAP:
        return None
    step = _first_step(session, found)
    came_due = [*_visits(found), *_booked(session, found), *_waits(found, last_day)]
    told = came_due[: AT_MOST - (lapse is not None) - (step is not None)]
    lines = [*([_permit(lapse)] if lapse else ()), *told, *([_step(found, step)] if step else ())]
    rest = len(came_due) - len(told)
    return ComingBack(
        sentence=f"The last day logged was {in_days(last_day, found.today)}. All is where you left it.",
        lines=tuple(lines),
        more=f"{plural(rest, 'more thing')} came due meanwhile, and will stand here in turn." if rest else "",
        whole=f"{found.build.base}/today?time=120",
    )
