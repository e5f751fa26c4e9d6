"""Reading the forms at the gate."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from webapp.core.forms import Reader, Submitted, Upload
from webapp.inspections.rules.facts import InspectionFacts
from webapp.plan.actions import TypedNeed
from webapp.plan.guard import Here
from webapp.plan.rules.ends import end_key
from webapp.plan.rules.kinds import NeedKind, Strength, TaskState
from webapp.plan.store import NeedFacts
from webapp.readiness.actions import Letting
from webapp.readiness.rules import keys
from webapp.readiness.rules.letting import mine_to_let_go, theirs_to_lift
from webapp.readiness.store import Site, last_seen
from webapp.readiness.store.ends import ends_of
from webapp.surfaces.rules.kinds import LiftedBy
from webapp.surfaces.store import SurfaceFacts
from webapp.values.dates import parse_day, show_date


@dataclass(frozen=True, slots=True)
class ClosingForm:
    on: date
    who: str
    layers: str


def day_of(reader: Reader, today: date) -> date:
    """The day in the field `on`; one to come is refused, since nothing is known of it yet."""
    day = reader.parsed("on", lambda text: parse_day(text, today), required="Write the day.")
    if day is not None and day > today:
        reader.wrong("on", f"{show_date(day)} is still to come. Write the day it happened.", (show_date(today),))
    return day or today


def read_closing(sent: Submitted, here: Here, site: Site, surface: SurfaceFacts) -> ClosingForm:
    """Raises BadForm, also for a day before the last visit that passed: then nobody saw it open."""
    reader = Reader(sent)
    on = day_of(reader, here.today)
    seen = last_seen(site, surface.id)
    if seen is not None and seen.day is not None and on < seen.day:
        reader.wrong("on", f"{seen.what} on {show_date(seen.day)}; it was still open then.", (show_date(seen.day),))
    form = ClosingForm(on, reader.text("who", most=80) or "me", reader.text("layers", most=200))
    reader.done()
    return form


def read_finishing(sent: Submitted, here: Here) -> date:
    reader = Reader(sent)
    on = day_of(reader, here.today)
    reader.done()
    return on


def read_done_day(sent: Submitted, here: Here) -> tuple[date, str]:
    """The day a task was really done, and why the old one was wrong. Raises BadForm."""
    reader = Reader(sent)
    on = day_of(reader, here.today)
    why = reader.text("why", most=300)
    reader.done()
    return on, why


def read_letting(
    sent: Submitted, here: Here, site: Site, surface: SurfaceFacts, keep: Callable[[Upload], int]
) -> Letting:
    """`keep` puts the picture of a paper on record and gives its id. Raises BadForm."""
    reader = Reader(sent)
    by = LiftedBy(reader.one_of("by", tuple(LiftedBy), default=LiftedBy.ME.value))
    theirs = by == LiftedBy.AUTHORITY
    owed = site.network.unmet(keys.cover(surface.id))
    choices = [need.node.key for need in (theirs_to_lift(owed) if theirs else mine_to_let_go(owed))]
    what = "Choose what the word is about." if theirs else "Choose what you let go."
    letting = Letting(
        node_key=reader.one_of("what", choices, required=what),
        by=by,
        who=reader.text("who", "Write who said so, as in “the inspector, by telephone”." if theirs else "", 80) or "me",
        why=reader.text("why", "Write the reason. It stays on record for good.", 1000),
        on=day_of(reader, here.today),
        photo_id=reader.file("paper", keep) if theirs else None,
    )
    reader.done()
    return letting


def read_task_wait(sent: Submitted, site: Site, task_id: int) -> TypedNeed:
    """What else a task shall wait for: one of what is in this build. Raises BadForm, also if it is typed already."""
    reader = Reader(sent)
    ends = [key for group in ends_of(site) for key, _ in group.options]
    chosen = reader.one_of("needs", ends, required="Choose what comes first; only what is in this build is listed.")
    kind, _, number = chosen.partition(":")
    row, _, place = number.partition("@")
    typed = TypedNeed(
        what_id=task_id,
        needs_kind=kind,
        needs_id=int(row or 0),
        needs_surface_id=int(place or 0),
        strength=reader.one_of("strength", tuple(Strength), Strength.HARD),
        reason=reader.text("reason", most=300),
    )
    _refuse_twice(reader, "needs", site, typed)
    reader.done()
    return typed


def read_visit_wait(sent: Submitted, site: Site, inspection: InspectionFacts) -> TypedNeed:
    """A task or another visit that stands before a visit or waits for it. Raises BadForm, also if typed already."""
    reader = Reader(sent)
    offered = [str(task.id) for task in site.record.tasks if task.state != TaskState.DONE]
    offered += [end_key(NeedKind.INSPECTION, one.id) for one in site.record.inspections if one.id != inspection.id]
    required = "Choose the task or the visit; only open tasks of this build are listed."
    kind, _, number = reader.one_of("task", offered, required=required).rpartition(":")
    other = (kind or NeedKind.TASK.value, int(number or 0), 0)
    place = int(reader.one_of("surface", [str(each) for each in inspection.surface_ids]) or 0)
    before = reader.one_of("side", ("before", "after"), required="Say which comes first.") == "before"
    visit = (NeedKind.INSPECTION.value, inspection.id, place)
    what, needs = (visit, other) if before else (other, visit)
    typed = TypedNeed(
        what_kind=what[0],
        what_id=what[1],
        what_surface_id=what[2],
        needs_kind=needs[0],
        needs_id=needs[1],
        needs_surface_id=needs[2],
        strength=reader.one_of("strength", tuple(Strength), Strength.HARD),
        reason=reader.text("reason", most=300),
    )
    _refuse_twice(reader, "task", site, typed)
    reader.done()
    return typed


def _refuse_twice(reader: Reader, name: str, site: Site, typed: TypedNeed) -> None:
    there = {(need.what_kind, need.what_id, need.what_surface_id, *_needed(need)) for need in site.record.needs}
    if (typed.what_kind, typed.what_id, typed.what_surface_id, *_needed(typed)) in there:
        reader.wrong(name, "That is written down already.")


def _needed(need: NeedFacts | TypedNeed) -> tuple[str, int, int]:
    return need.needs_kind, need.needs_id, need.needs_surface_id
