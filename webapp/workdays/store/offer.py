"""What the day's form offers: the tasks that come first, places for pictures, shots still to film."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from sqlmodel import Session

from webapp.core.database import remembered
from webapp.footage.store import ShotFacts
from webapp.plan.rules.dangers import Danger
from webapp.plan.rules.kinds import TaskState
from webapp.plan.store import BuildFacts, PhaseFacts, TaskFacts
from webapp.plan.store.dangers import dangers_of
from webapp.readiness.rules import keys
from webapp.readiness.store import Site, site
from webapp.surfaces.store import ItemFacts, SlotFacts, SurfaceFacts, list_items
from webapp.workdays.rules.alone import ToldFacts
from webapp.workdays.rules.said import STOPS, WEATHERS
from webapp.workdays.rules.usual import own_reasons, usual_minutes
from webapp.workdays.store.alone import open_told
from webapp.workdays.store.days import DayFacts, EntryFacts
from webapp.workdays.store.usual import last_worked, lost_days, own_days

MOST_TASKS = 12
DONE_LATELY = timedelta(days=14)
"""a day is often written down after its task was ticked"""


@dataclass(frozen=True, slots=True)
class Offer:
    """The choices of the form, each list in the builder's order."""

    site: Site
    first: tuple[TaskFacts, ...]
    """under way first, what was worked on last before all others, then what can start now"""
    more: tuple[TaskFacts, ...]
    """every other open task, and those done lately"""
    phases: Mapping[int, PhaseFacts]
    surfaces: tuple[SurfaceFacts, ...]
    items: tuple[ItemFacts, ...]
    slots: tuple[SlotFacts, ...]
    """pictures still owed of surfaces that are open"""
    shots: tuple[ShotFacts, ...]
    """not filmed yet; of tasks offered first before all others"""
    permit_from: date | None
    """the day the first permit was issued"""
    usual: tuple[int, ...]
    """my own minutes of days like this one, the most usual first"""
    dangers: Mapping[int, tuple[Danger, ...]]
    """what was ticked of tasks that are no work for one alone"""
    told: ToldFacts | None
    """whom I told before I worked alone, while I did not say that I am back"""
    own_stops: tuple[str, ...]
    """what took a day before, in the builder's own word"""

    def task_ids(self) -> frozenset[int]:
        return frozenset(task.id for task in (*self.first, *self.more))


@dataclass(frozen=True, slots=True)
class Asked:
    """What the form was asked about: the choices it offered, and what is on record besides."""

    offer: Offer
    today: date
    finished_before: frozenset[int] = frozenset()
    """tasks finished that day before it is amended; they stay so"""
    weather_before: str = ""
    amending: bool = False
    day_before: date | None = None
    """the day it is noted for before it is amended; it was asked about already"""

    @property
    def weathers(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys((*WEATHERS, *filter(None, [self.weather_before]))))

    @property
    def stops(self) -> tuple[str, ...]:
        """What stops a day: the builder's own words stand before `Other`."""
        return (*STOPS[:-1], *self.offer.own_stops, STOPS[-1])


def read_offer(session: Session, build: BuildFacts, today: date, already: frozenset[int] = frozenset()) -> Offer:
    """`already`: tasks a day names before it is amended; they come first, whatever their state.

    Chosen once after each write, as the graph is made.
    """
    key = ("offer", build, today, already)
    return remembered(session, key, lambda: _offer(session, build, today, already))


def _offer(session: Session, build: BuildFacts, today: date, already: frozenset[int]) -> Offer:
    here = site(session, build, today)
    record = here.record
    first = _first(here, already, last_worked(session, build.id))
    firsts = {task.id for task in first}
    issued = [permit.issued_on for permit in record.permits if permit.issued_on]
    return Offer(
        site=here,
        first=first,
        more=tuple(task for task in record.tasks if task.id not in firsts and _choosable(task, today)),
        phases={phase.id: phase for phase in record.phases},
        surfaces=record.surfaces,
        items=tuple(item for item in list_items(session, build.id) if item.replaced_on is None),
        slots=tuple(slot for slot in record.slots if slot.photo_id is None and slot.covered_on is None),
        shots=tuple(
            sorted((shot for shot in record.shots if shot.state == "owed"), key=lambda shot: shot.task_id not in firsts)
        ),
        permit_from=min(issued, default=None),
        dangers=dangers_of(session, build.id),
        told=open_told(session, build.id),
        usual=usual_minutes(own_days(session, build.id), today),
        own_stops=own_reasons(lost_days(session, build.id), STOPS),
    )


def ask(
    session: Session, build: BuildFacts, today: date, day: DayFacts | None = None, entries: tuple[EntryFacts, ...] = ()
) -> Asked:
    """What the form for a new day is asked about, or for `day` with its `entries` when it is put right."""
    own = [entry for entry in entries if entry.who == "self"]
    offer = read_offer(session, build, today, frozenset(entry.task_id for entry in own))
    finished = frozenset(entry.task_id for entry in own if entry.finished)
    return Asked(
        offer, today, finished, day.words.weather if day else "", day is not None, day.words.day if day else None
    )


def _first(here: Site, already: frozenset[int], worked: Mapping[int, date]) -> tuple[TaskFacts, ...]:
    tasks = here.record.task
    named = [task for task in here.record.tasks if task.id in already]
    under_way = [task for task in here.record.tasks if task.state == TaskState.UNDER_WAY]
    under_way.sort(key=lambda task: worked.get(task.id, task.started_on or date.min), reverse=True)
    can_start = [tasks[keys.id_of(node.key)] for node in here.network.startable()]
    every = dict.fromkeys(task.id for task in (*named, *under_way, *can_start))
    return tuple(tasks[number] for number in list(every)[: max(MOST_TASKS, len(named))])


def _choosable(task: TaskFacts, today: date) -> bool:
    return task.state != TaskState.DONE or (task.done_on is not None and task.done_on >= today - DONE_LATELY)
