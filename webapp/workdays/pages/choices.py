"""The choices the day's form draws: options as (value, words), or (value, words, detail)."""

from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass
from datetime import date, timedelta

from webapp.plan.rules.kinds import TaskState
from webapp.plan.store import TaskFacts
from webapp.surfaces.store import SurfaceFacts
from webapp.values.dates import WEEKDAYS, show_day
from webapp.values.words import join_words
from webapp.workdays.store import Offer

Option = tuple[str, str]
SHOWN_AT_ONCE = 6
MOST_SHOTS = 12
MOST_MORE = 200
"""other tasks in the list to choose from; a longer one is of no use on a phone"""


@dataclass(frozen=True, slots=True)
class TaskChoice:
    """One task to tick. `finished_then`: it was finished that day already, and the form only says so."""

    id: int
    title: str
    detail: str
    href: str
    finished_then: bool


@dataclass(frozen=True, slots=True)
class Group:
    """Options under one heading."""

    label: str
    options: tuple[Option, ...]


def days(today: date, chosen: str) -> tuple[Option, ...]:
    """Today and yesterday by their dates, so that a form left open over midnight still means the same day."""
    listed = {
        day.isoformat(): f"{word}, {WEEKDAYS[day.weekday()]} {day.day} {show_day(day, today).split()[2]}"
        for day, word in ((today, "Today"), (today - timedelta(days=1), "Yesterday"))
    }
    with suppress(ValueError):  # what is typed and is no day has its own sentence beside it
        listed.setdefault(date.fromisoformat(chosen).isoformat(), show_day(date.fromisoformat(chosen), today))
    return (*listed.items(), ("other", "Another day"))


def tasks(offer: Offer, finished_then: frozenset[int]) -> tuple[TaskChoice, ...]:
    base, places = offer.site.build.base, offer.site.record.task_surfaces
    names = {surface.id: surface.code for surface in offer.surfaces}

    def detail(task: TaskFacts) -> str:
        where = join_words([names[one] for one in places.get(task.id, ())])
        state = "" if task.state == TaskState.NOT_STARTED else task.state
        return " · ".join(part for part in (offer.phases[task.phase_id].title, where, state) if part)

    return tuple(
        TaskChoice(task.id, task.title, detail(task), f"{base}/tasks/{task.id}", task.id in finished_then)
        for task in offer.first
    )


def _grouped(rows: Iterable[tuple[str, Option]]) -> tuple[Group, ...]:
    groups: dict[str, list[Option]] = {}
    for label, option in rows:
        groups.setdefault(label, []).append(option)
    return tuple(Group(label, tuple(options)) for label, options in groups.items())


def more_tasks(offer: Offer, chosen: str) -> tuple[Group, ...]:
    """Other tasks, phase by phase in the builder's order, and the `chosen` one wherever it stands."""
    listed = [task for at, task in enumerate(offer.more) if at < MOST_MORE or str(task.id) == chosen]
    return _grouped(
        (
            offer.phases[task.phase_id].title,
            (str(task.id), f"{task.title} (done)" if task.state == TaskState.DONE else task.title),
        )
        for task in listed
    )


def surfaces(listed: Iterable[SurfaceFacts]) -> tuple[Option, ...]:
    return (("", "No surface yet"), *((str(one.id), f"{one.code}  {one.name}") for one in listed))


def items(offer: Offer) -> tuple[Group, ...]:
    names = {surface.id: surface.name for surface in offer.surfaces}
    return _grouped((names[item.surface_id], (str(item.id), item.label)) for item in offer.items)


def slots(offer: Offer) -> tuple[Group, ...]:
    names = {surface.id: surface.name for surface in offer.surfaces}
    return _grouped((names[slot.surface_id], (str(slot.id), f"{slot.number}. {slot.what}")) for slot in offer.slots)


def shots(offer: Offer, ticked: tuple[str, ...]) -> tuple[tuple[str, str, str], ...]:
    """The shots that are due first, and any that was ticked."""
    listed = [shot for at, shot in enumerate(offer.shots) if at < MOST_SHOTS or str(shot.id) in ticked]
    return tuple((str(shot.id), shot.what, _when(shot.once, shot.strength)) for shot in listed)


def _when(once: bool, strength: str) -> str:
    must = "must be filmed" if strength == "must" else "nice to have"
    return f"{must}, once only" if once else must
