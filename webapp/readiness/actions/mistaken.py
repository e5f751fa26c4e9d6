"""A surface that was covered before it was cleared: put on record as what it is, with the way out as work to do."""

from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.money import actions as money
from webapp.money.actions import SpendForm
from webapp.plan import actions as plan
from webapp.plan.actions import PlannedTask
from webapp.plan.store import BuildFacts, get_task
from webapp.readiness.rules import keys
from webapp.readiness.rules.answers import cover_answer
from webapp.readiness.rules.mistaken import needs_a_word, work_title
from webapp.readiness.store import Site, look_over, on_hand
from webapp.surfaces import actions as surfaces
from webapp.surfaces.actions import Covering
from webapp.surfaces.store import CoverFacts, SurfaceFacts
from webapp.values.dates import show_date
from webapp.values.errors import RuleBroken
from webapp.values.verdict import Reason, Verdict, Way

PUTTING_RIGHT = "Putting right"


@dataclass(frozen=True, slots=True)
class Mistake:
    """What was covered, and the work of getting out of it: its phase (None: a new one) and how long it may take."""

    covering: Covering
    phase_id: int | None
    minutes: int


def may_be_mistaken(session: Session, build: BuildFacts, surface: SurfaceFacts, today: date) -> Site:
    """How the build stands, if something covers this surface that was not cleared. Raises RuleBroken, else: it is
    closed, it may be closed, or all of it is on record as covered already."""
    site = look_over(session, build, today)
    href = f"{build.base}/surfaces/{surface.code}"
    if surface.covered_on is not None:
        reason = Reason(f"{surface.name} was closed on {show_date(surface.covered_on)}, with nothing owed.")
        raise RuleBroken(Verdict((reason,)), "Closed already", (Way("See what it rests on", f"{href}/before-cover"),))
    if cover_answer(site.network, keys.cover(surface.id), surface.name).may_be_covered:
        reason = Reason(f"Nothing stops {surface.name}: it is closed the usual way.")
        raise RuleBroken(Verdict((reason,)), "Not by mistake", (Way(f"Close {surface.name}", f"{href}/cover"),))
    whole = next((one for one in _standing(site, surface) if not one.extent), None)
    if whole is not None:
        reason = Reason(f"All of {surface.name} is on record as covered on {show_date(whole.covered_on)}.")
        raise RuleBroken(
            Verdict((reason,)), "On record already", (Way("See it", f"{build.base}/coverings/{whole.id}"),)
        )
    return site


def _standing(site: Site, surface: SurfaceFacts) -> list[CoverFacts]:
    return [one for one in site.record.coverings if one.surface_id == surface.id]


def cover_by_mistake(session: Session, site: Site, surface: SurfaceFacts, mistake: Mistake) -> int:
    """Write down that it is covered and not cleared. Nothing passes by that; what was owed goes on stopping.

    Opens the work of asking or opening up. `site` is of `may_be_mistaken`. Returns the id of the covering.
    """
    answer = cover_answer(site.network, keys.cover(surface.id), surface.name)
    nodes = [need.node for need in (*answer.stops, *answer.wishes)]
    owed = [(node.title, node.detail, node.key) for node in nodes]
    evidence = list(on_hand(session, site, surface))
    work = PlannedTask(
        title=work_title(surface.code, word=needs_a_word(key for _, _, key in owed)),
        kind="checking",
        low_min=mistake.minutes // 2,
        likely_min=mistake.minutes,
        high_min=mistake.minutes * 2,
        note=f"{surface.name} was covered on {show_date(mistake.covering.on)} before it was cleared.",
    )
    phase_id = mistake.phase_id or plan.add_phase(session, site.build.id, PUTTING_RIGHT).row_id
    task = plan.add_task(session, site.build.id, phase_id, work)
    surfaces.set_task_surfaces(session, site.build, task.row_id, {surface.id: False})
    return surfaces.cover_by_mistake(session, surface.id, mistake.covering, owed, evidence, task.row_id).row_id


def add_cost(session: Session, build: BuildFacts, cover: CoverFacts, day: date, what: str, cents: int) -> None:
    """A line of spend on the work of a covering: what opening up, a fee or new board cost."""
    task = get_task(session, build.id, cover.task_id or 0)
    line = SpendForm(day=day, what=what, total_cents=cents, phase_id=task.phase_id, task_id=task.id)
    money.record_spend(session, build.id, line)
