"""The gate: a surface is closed, a task that closes one finished, an owed thing let go. Or every reason why not."""

from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.plan import actions as plan
from webapp.plan.rules.kinds import TaskState
from webapp.plan.store import BuildFacts
from webapp.readiness.rules import keys
from webapp.readiness.rules.answers import cover_answer
from webapp.readiness.rules.letting import is_mine, is_theirs
from webapp.readiness.rules.network import Unmet
from webapp.readiness.store import Site, last_seen, look_over, proofs
from webapp.readiness.store import let_go as lines_let_go
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


def refusal(site: Site, surface: SurfaceFacts, heading: str) -> RuleBroken | None:
    """The refusal to close a surface, with every hard stop; None when it may be closed."""
    answer = cover_answer(site.network, keys.cover(surface.id), surface.name)
    if answer.may_be_covered:
        return None
    page = f"{site.build.base}/surfaces/{surface.code}/before-cover"
    return RuleBroken(
        Verdict(tuple(reason_of(need) for need in answer.stops)),
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
    for surface in closes:
        if refused := refusal(site, surface, f"Not finished: {surface.name} may not be covered yet"):
            raise refused
        _refuse_before_it_was_seen(site, surface, on)
    plan.finish(session, task_id, on)
    closed = tuple(
        surface
        for surface in closes
        if all(other == task_id or record.task[other].state == TaskState.DONE for other in record.closers[surface.id])
    )
    for surface in closed:
        _close(session, site, surface, on, "me", "")
    return closed


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
