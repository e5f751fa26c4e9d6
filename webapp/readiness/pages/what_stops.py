"""What stops a phase, a task or the closing of a surface: every root cause, drawn, and surface by surface."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from sqlmodel import Session

from webapp.core.sheets import Sheet
from webapp.plan.guard import Here
from webapp.readiness.pages.asked import Asked, Asking, find_asked
from webapp.readiness.pages.covers import SurfaceLine, surface_line
from webapp.readiness.pages.lapsing import Lapse, first_lapse
from webapp.readiness.pages.lines import SHOWN, Line, owed_lines, root_line
from webapp.readiness.pages.order import OrderLine, order_lines
from webapp.readiness.rules import keys
from webapp.readiness.rules.answers import stops_sentence
from webapp.readiness.rules.nearest import MINE
from webapp.readiness.rules.neighbourhood import Drawing, drawn
from webapp.readiness.rules.network import Root, Unmet
from webapp.readiness.rules.wording import inside
from webapp.readiness.store import Site, roots_from_outside, site
from webapp.readiness.store.hanging import ToMove, to_move
from webapp.readiness.store.hold_points import BreachLine, breach_lines

__all__ = ["Asking", "what_stops_page"]


@dataclass(frozen=True, slots=True)
class PhaseLink:
    """A phase to ask about, with how much of it cannot start."""

    title: str
    blocked: str
    href: str
    current: bool


@dataclass(frozen=True, slots=True)
class WhatStopsPage:
    sheet: Sheet
    heading: str
    lede: str
    roots: tuple[Line, ...]
    more_roots: int
    more_href: str
    drawing: Drawing | None
    drawing_of: str
    surfaces: tuple[SurfaceLine, ...]
    wishes: tuple[Line, ...]
    more_wishes: int
    phases: tuple[PhaseLink, ...]
    start_label: str
    start_href: str
    back_label: str
    back_href: str
    breaches: tuple[OrderLine, ...]
    moves: tuple[ToMove, ...]
    lapse: Lapse | None
    """the first permit to lapse, once that is near"""


def _way(following: Mapping[str, str], root: Root) -> tuple[str, ...]:
    """The keys from a root down to what was asked about."""
    way = [root.node.key]
    while way[-1] in following:
        way.append(following[way[-1]])
    return tuple(way)


def _root_lines(found: Site, asked: Asked, roots: tuple[Root, ...]) -> tuple[Line, ...]:
    following = found.network.ways_down(asked.blocked)
    return tuple(root_line(found, root, _way(following, root)) for root in roots)


def _wishes(found: Site, asked: Asked) -> tuple[Unmet, ...]:
    """Each wish once, even where several tasks have it."""
    wishes: dict[str, Unmet] = {}
    for key in asked.all:
        for need in found.network.wishes(key):
            wishes.setdefault(need.node.key, need)
    return tuple(wishes.values())


def _surfaces(found: Site, asked: Asked) -> tuple[SurfaceLine, ...]:
    if asked.phase_id is None:
        return ()
    lines = []
    for surface in found.record.surfaces:
        closers = found.record.closers.get(surface.id, ())
        if any(found.record.task[task].phase_id == asked.phase_id for task in closers):
            lines.append(surface_line(found, surface)[0])
    return tuple(lines)


def _phase_links(found: Site, asked: Asked) -> tuple[PhaseLink, ...]:
    blocked: dict[int, int] = {}
    for node in found.network.nodes:
        if node.kind == "task" and node.phase_id is not None and not node.settled:
            blocked[node.phase_id] = blocked.get(node.phase_id, 0) + (not found.network.can_start(node.key))
    return tuple(
        PhaseLink(
            title=phase.title,
            blocked=f"{blocked[phase.id]} held" if blocked[phase.id] else "free",
            href=f"{found.build.base}/what-stops?phase={phase.id}",
            current=phase.id == asked.phase_id,
        )
        for phase in found.record.phases
        if phase.id in blocked
    )


def _drawn_key(found: Site, asked: Asked, roots: tuple[Root, ...]) -> str:
    """What the drawing is about: the asked thing, or the task of the phase that the first root leads down to."""
    if asked.phase_id is None:
        return asked.all[0]
    if roots:
        way = _way(found.network.ways_down(asked.blocked), roots[0])
        if way[-1] in found.network and way[-1] in asked.blocked:
            return way[-1]
    return asked.blocked[0]


def what_stops_page(session: Session, here: Here, asking: Asking) -> WhatStopsPage:
    """Raises NotFound for a phase, task or surface that is not there."""
    found = site(session, here.build, here.today)
    asked = find_asked(found, asking)
    roots = roots_from_outside(found, asked.blocked, asked.own)
    wishes = _wishes(found, asked)
    shown = roots if asking.whole or len(roots) == SHOWN + 1 else roots[:SHOWN]
    lines = _root_lines(found, asked, shown)
    key = _drawn_key(found, asked, roots) if asked.blocked else ""
    first = next((root for root in shown if root.waits_for in MINE), None)
    closes = {keys.task(task) for closers in found.record.closers.values() for task in closers}
    return WhatStopsPage(
        sheet=replace(here.sheet("G2", "What stops it", asked.heading), here=f"{here.path}?{asked.query}"),
        heading=asked.heading,
        lede=_lede(found, asked, roots),
        roots=lines,
        more_roots=len(roots) - len(shown),
        more_href=f"{here.base}/what-stops?{asked.query}{'&' if asked.query else ''}all=1",
        drawing=drawn(found.network, key, key in closes or key.startswith("cover:")) if key else None,
        drawing_of=found.network.node(key).title if key else "",
        surfaces=_surfaces(found, asked),
        wishes=owed_lines(found.network, wishes if asking.whole else wishes[:SHOWN]),
        more_wishes=0 if asking.whole else max(0, len(wishes) - SHOWN),
        phases=_phase_links(found, asked),
        start_label=_start_label(first),
        start_href=first.node.href if first else "",
        back_label=asked.back_label,
        back_href=asked.back_href,
        breaches=order_lines(session, found, _breaches_of(session, found, asking, asked)),
        moves=to_move(session, found),
        lapse=_lapse_near(found) if asked.phase_id is not None or not asked.query else None,
    )


def _breaches_of(session: Session, found: Site, asking: Asking, asked: Asked) -> tuple[BreachLine, ...]:
    """Hold points the order breaks: all, or those of what was asked about."""
    every = breach_lines(session, found)
    if asking.phase_id is None and asking.task_id is None and not asking.surface:
        return every
    wanted = {*asked.all, *asked.own}
    return tuple(one for one in every if one.broken.what in wanted or keys.cover(one.surface_id) in wanted)


def _lapse_near(found: Site) -> Lapse | None:
    lapse = first_lapse(found)
    return lapse if lapse and lapse.near else None


def _start_label(root: Root | None) -> str:
    if root is None:
        return ""
    return root.node.ready_says or (root.node.title if root.node.kind == "fee" else f"Start: {inside(root.node.title)}")


def _lede(found: Site, asked: Asked, roots: tuple[Root, ...]) -> str:
    free = sum(found.network.can_start(key) for key in asked.all) if asked.phase_id is not None else 0
    can = f" {'One task' if free == 1 else f'{free} tasks'} of it can start now." if free else ""
    if roots:
        return stops_sentence(roots) + can
    if not asked.query:
        return "Nothing is left to do that was written down, so nothing is stopped."
    if not asked.all:
        return "Nothing is left to do here." if asked.phase_id is not None else "Nothing stops it: it is settled."
    return f"Nothing from outside stops it.{can}" if can else "Nothing stops it. It can start today."
