"""Coming back after a while: at most five things, the permit first, and one first step under two hours."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from webapp.readiness.pages.lapsing import Lapse
from webapp.readiness.rules.network import Root
from webapp.readiness.store import Site
from webapp.today.pages.start import start_line
from webapp.today.rules.fits import first_step
from webapp.values.dates import in_days, show_day
from webapp.values.own_words import own

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
    sentence: str
    lines: tuple[GapLine, ...]


def _came_due(found: Site, last_day: date) -> Iterator[GapLine]:
    """Results to record of visits that were due meanwhile, then waits for others whose day has passed."""
    for root in found.network.every_root():
        if root.node.ready_says.startswith("Record the result"):
            yield GapLine(root.node.ready_says, root.node.detail, root.node.href)
    for root in found.network.waiting():
        if root.until and last_day <= root.until < found.today:
            said = f"Was due {show_day(root.until, found.today)}. Is it so?"
            yield GapLine(root.node.title, said, root.node.href)


def _step(found: Site, root: Root) -> GapLine:
    line = start_line(found, root)
    return GapLine(
        f"A first step: {line.title}", " ".join(part for part in (line.time, line.detail) if part), line.href
    )


def coming_back(found: Site, last_day: date | None, lapse: Lapse | None) -> ComingBack | None:
    """None while there is no gap, or no day was ever logged."""
    if last_day is None or (found.today - last_day).days < A_GAP:
        return None
    lines = (
        [GapLine(f"The {own('permit')} first", lapse.sentence + (f" {lapse.near}" if lapse.near else ""), lapse.href)]
        if lapse
        else []
    )
    step = first_step(found.network.every_root())
    lines += list(_came_due(found, last_day))[: AT_MOST - len(lines) - (step is not None)]
    if step is not None:
        lines.append(_step(found, step))
    return ComingBack(
        f"The last day logged was {in_days(last_day, found.today)}. All is where you left it.", tuple(lines)
    )
