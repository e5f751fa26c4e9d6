"""The gate: a surface is closed, a task that closes one finished, an owed thing let go. Or every reason why not."""

from collections.abc import Collection
from dataclasses import asdict, dataclass, replace
from datetime import date

from sqlmodel import Session

from webapp.plan import actions as plan
from webapp.plan.actions import TypedNeed
from webapp.plan.rules.graph import Link, downstream, loop_with
from webapp.plan.rules.kinds import TaskState
from webapp.plan.store import BuildFacts, NeedFacts
from webapp.readiness.rules import keys
from webapp.readiness.rules.answers import cover_answer
from webapp.readiness.rules.letting import is_mine, is_theirs
from webapp.readiness.rules.network import Unmet
from webapp.readiness.store import Site, last_seen, look_over, proofs
from webapp.readiness.store import let_go as lines_let_go
from webapp.readiness.store.links import all_links, named
from webapp.surfaces import actions as surfaces
from webapp.surfaces.rules.kinds import LiftedBy
from webapp.surfaces.store import SurfaceFacts
from webapp.values.dates import show_date
from webapp.values.errors import RuleBroken
from webapp.values.verdict import Reason, Verdict, Way


@dataclass(frozen=True, slots=True)
class Letting:
    """Something owed that shall be let go."""

    node_key: str
    by: LiftedBy
    who: str
    why: str
    on: date
    photo_id: int | None = None


def reason_of(need: Unmet) -> Reason:
    return Reason(need.node.title, need.node.detail, need.node.href, need.hard)


def refusal(site: Site, surface: SurfaceFacts, heading: str, later: Collection[str] = ()) -> RuleBroken | None:
    """The refusal to close a surface, with every hard stop but those of `later`; None when there is none."""
    answer = cover_answer(site.network, keys.cover(surface.id), surface.name)
    stops = tuple(need for need in answer.stops if need.node.key not in later)
    if not stops:
        return None
    page = f"{site.build.base}/surfaces/{surface.code}/before-cover"
    return RuleBroken(
        Verdict(tuple(reason_of(need) for need in stops)),
        heading=heading,
        ways_on=(Way(f"See what {surface.name} still owes", page), Way("To today", f"{site.build.base}/today")),
    )


def _close(session: Session, site: Site, surface: SurfaceFacts, on: date, who: str, layers: str) -> None:
    evidence = [(one.what, one.who, show_date(one.day) if one.day else "") for one in proofs(site, surface.id)]
    evidence += [
        (f"Let go: {line.what}. {line.why}", line.who, show_date(line.on_day))
        for line in lines_let_go(site, surface.id)
    ]
    surfaces.mark_covered(session, surface.id, on, who, layers or surface.closed_by, evidence)


def _refuse_before_it_was_seen(site: Site, surface: SurfaceFacts, on: date) -> None:
    seen = last_seen(site, surface.id)
    if seen is not None and seen.day is not None and on < seen.day:
        reason = Reason(f"{seen.what} on {show_date(seen.day)}; {surface.name} was still open then.", href=seen.href)
        raise RuleBroken(Verdict((reason,)), heading=f"Not finished on {show_date(on)}")


def _after(site: Site, surface: SurfaceFacts, task_id: int) -> frozenset[str]:
    """What the surface waits for and this one of its closing tasks does not, since it only comes after the task."""
    own = {link.needs for link in site.network.links_of(keys.task(task_id)) if link.hard}
    return frozenset(
        link.needs for link in site.network.links_of(keys.cover(surface.id)) if link.needs not in own
    ) & downstream(keys.task(task_id), (link for link in site.network.links if link.hard))


def may_close(session: Session, build: BuildFacts, surface: SurfaceFacts, today: date) -> Site:
    """How the build stands, if this surface may be closed now. Raises RuleBroken with every hard stop, else."""
    site = look_over(session, build, today)
    if surface.covered_on is not None:
        reason = Reason(f"{surface.name} was closed on {show_date(surface.covered_on)}.")
        page = f"{build.base}/surfaces/{surface.code}/before-cover"
        raise RuleBroken(Verdict((reason,)), "Closed already", (Way("See what the closing rests on", page),))
    if refused := refusal(site, surface, f"{surface.name}: do not cover"):
        raise refused
    return site


def close_surface(
    session: Session, site: Site, surface: SurfaceFacts, on: date, who: str = "me", layers: str = ""
) -> None:
    """Record that a surface was closed on a day, with the evidence it rested on, frozen. `site` is of `may_close`."""
    _close(session, site, surface, on, who, layers)


def finish_task(session: Session, build: BuildFacts, task_id: int, on: date, today: date) -> tuple[SurfaceFacts, ...]:
    """Finish a task and give the surfaces that are closed by that.

    One that closes a surface is refused while a hard stop stands; its last closing task closes the surface too.
    """
    site = look_over(session, build, today)
    record = site.record
    closes = [
        record.surface[surface_id]
        for surface_id, closers in record.closers.items()
        if task_id in closers and record.surface[surface_id].covered_on is None
    ]
    closed = tuple(
        surface
        for surface in closes
        if all(other == task_id or record.task[other].state == TaskState.DONE for other in record.closers[surface.id])
    )
    for surface in closes:
        heading = f"Not finished: {surface.name} may not be covered yet"
        refused = refusal(site, surface, heading, () if surface in closed else _after(site, surface, task_id))
        if refused:
            raise refused
        _refuse_before_it_was_seen(site, surface, on)
    plan.finish(session, task_id, on)
    for surface in closed:
        _close(session, site, surface, on, "me", "")
    return closed


def correct_done_day(session: Session, site: Site, task_id: int, done_on: date, why: str = "") -> None:
    """Put right the day a task was done; what it closed on its old day was closed on the new one. A start later than
    that moves with it.

    Raises RuleBroken for a day on which a surface it closed had not been seen yet.
    """
    task = site.record.task[task_id]
    closed = [
        site.record.surface[surface_id]
        for surface_id, closers in site.record.closers.items()
        if task_id in closers
        and task.done_on is not None
        and site.record.surface[surface_id].covered_on == task.done_on
    ]
    for surface in closed:
        _refuse_before_it_was_seen(site, surface, done_on)
    plan.correct_days(session, task_id, min(task.started_on or done_on, done_on), done_on, why)
    for surface in closed:
        surfaces.correct_cover_day(session, surface.id, done_on, why or f"The day of “{task.title}” was put right.")


def let_go(session: Session, build: BuildFacts, surface: SurfaceFacts, letting: Letting, today: date) -> None:
    """Let an owed thing go with a reason that stays. A hard stop of the authority needs the authority's own word."""
    site = look_over(session, build, today)
    cover = keys.cover(surface.id)
    need = next((one for one in site.network.unmet(cover) if one.node.key == letting.node_key), None)
    if need is None:
        raise RuleBroken(
            Verdict((Reason(f"{surface.name} does not owe this any more."),)),
            ways_on=(Way("See what it owes", f"{build.base}/surfaces/{surface.code}/before-cover"),),
        )
    if letting.by == LiftedBy.ME and not is_mine(need):
        raise RuleBroken(Verdict((_cannot_be_skipped(need),)), heading="A hard stop cannot be skipped")
    if letting.by == LiftedBy.AUTHORITY and not is_theirs(need):
        sentence = "The authority’s word settles what the authority asked for. This is settled at its own page."
        raise RuleBroken(Verdict((Reason(sentence, need.node.title, need.node.href),)))
    surfaces.let_go(
        session,
        surface.id,
        letting.node_key,
        need.node.title,
        letting.by,
        letting.who,
        letting.why,
        letting.on,
        letting.photo_id,
    )


def _cannot_be_skipped(need: Unmet) -> Reason:
    return Reason(
        need.node.title,
        "It is settled where it came from. If the inspector says otherwise, record their word: who, when, which paper.",
        need.node.href,
    )


def add_wait(session: Session, site: Site, typed: TypedNeed, back: Way) -> None:
    """Write a need of any kind down. Raises RuleBroken for a circle, also one that closes through what nobody typed."""
    record = replace(site.record, needs=(*site.record.needs, NeedFacts(id=0, **asdict(typed))))
    links = all_links(record, {node.key for node in site.network.nodes})
    for waiter in named(typed.what_kind, typed.what_id, typed.what_surface_id, record):
        for needs in named(typed.needs_kind, typed.needs_id, typed.needs_surface_id, record):
            if loop := loop_with(links, Link(waiter, needs)):
                raise _circle(site, loop, back)
    plan.add_need(session, site.build, typed)


def _circle(site: Site, loop: tuple[str, ...], back: Way) -> RuleBroken:
    """`loop`: each needs the next, the last needs the first; the first of these needs was the one asked for."""
    things = [site.network.node(key) for key in loop]
    titles = [f"“{node.title}”" for node in (*things, things[0])]
    asked = f"You asked for the first step now: {titles[0]} needs {titles[1]}. The rest follows from the record."
    return RuleBroken(
        Verdict((Reason(f"{' needs '.join(titles)}.", asked),)),
        "Not saved: these would wait for each other",
        (back, *(Way(f"Look at “{node.title}”", node.href) for node in things if node.href)),
    )
