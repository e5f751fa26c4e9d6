"""What a change may touch: passes that would count no more, takes, work and pictures that show the old state."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from sqlmodel import Session

from webapp.footage.store import list_shots
from webapp.inspections.rules.changing import Move, has_to_be_asked
from webapp.inspections.rules.facts import InspectionFacts
from webapp.inspections.rules.results import Standing, standings
from webapp.inspections.rules.trades import is_work_of, looks_at
from webapp.inspections.store.lists import list_corrections, list_inspections, list_results
from webapp.inspections.store.permits import list_permits
from webapp.inspections.store.plan_changes import list_plan_changes
from webapp.plan.rules.kinds import TaskState
from webapp.plan.store import list_tasks
from webapp.surfaces import store as surfaces
from webapp.surfaces.store import ItemFacts
from webapp.values.dates import show_date


@dataclass(frozen=True, slots=True)
class Offer:
    """One thing to tick. `chosen`: proposed; `passed`: something was approved by it."""

    key: str
    words: str
    detail: str
    chosen: bool
    passed: bool = False


@dataclass(frozen=True, slots=True)
class Offered:
    reopen: tuple[Offer, ...]
    shots: tuple[Offer, ...] = ()
    tasks: tuple[Offer, ...] = ()
    slots: tuple[Offer, ...] = ()

    @property
    def approved(self) -> bool:
        """Whether a pass speaks of what the change touches."""
        return any(one.passed for one in self.reopen)


def offered_for_move(session: Session, build_id: int, item: ItemFacts, to: int) -> Offered:
    """For a hidden thing that goes from its surface to another one, or to another place on its own."""
    both = tuple(dict.fromkeys((item.surface_id, to)))
    return Offered(
        reopen=_proposed(tuple(_reopen(session, build_id, both, item.service, item.surface_id, to))),
        shots=tuple(_shots(session, build_id, both, item.service)),
        tasks=tuple(_tasks(session, build_id, both, item.service)),
        slots=tuple(_slots(session, build_id, item)),
    )


def asks(session: Session, build_id: int, move: Move, offered: Offered, *, on_the_plan: bool) -> bool:
    """Whether a move is a change to be agreed to. `on_the_plan`: the builder says that its place was approved."""
    changed = (item_id for one in list_plan_changes(session, build_id) for item_id in one.item_ids)
    items = surfaces.list_items(session, build_id)
    return has_to_be_asked(move, items, changed, approved=offered.approved or on_the_plan)


def offered_for_any(session: Session, build_id: int) -> Offered:
    """For a change that moves nothing: every pass on record, none proposed."""
    every = tuple(one.id for one in surfaces.list_surfaces(session, build_id))
    return Offered(reopen=tuple(_reopen(session, build_id, every, "")))


def _reopen(
    session: Session, build_id: int, places: tuple[int, ...], service: str, old: int = 0, new: int = 0
) -> Iterator[Offer]:
    """Passes of these places; one of the trade that looked at the old surface has to look at the new one as well."""
    results, corrections = list_results(session, build_id), list_corrections(session, build_id)
    permits = {one.id: one.name for one in list_permits(session, build_id)}
    codes = {one.id: one.code for one in surfaces.list_surfaces(session, build_id)}
    for one in list_inspections(session, build_id):
        fits = looks_at(f"{one.name} {permits[one.permit_id]}", service)
        for place, found in standings(one, results, corrections).items():
            if found.passed and (place is None or place in places):
                yield _passed(one, place, found, codes, fits=fits)
        if fits and old in one.surface_ids and new not in one.surface_ids:
            detail = "It does not look at this surface yet; from now on it does."
            yield Offer(f"{one.id}@{new}", f"{one.name}, {codes[new]}", detail, chosen=True)


def _passed(one: InspectionFacts, place: int | None, found: Standing, codes: dict[int, str], *, fits: bool) -> Offer:
    where = codes[place] if place else "the whole building"
    day = f" {show_date(found.day)}" if found.day else ""
    words = f"{found.words[:1].upper()}{found.words[1:]}{day}."
    return Offer(f"{one.id}@{place or 0}", f"{one.name}, {where}", words, fits, passed=place is not None or fits)


def _proposed(found: tuple[Offer, ...]) -> tuple[Offer, ...]:
    """Where no inspection can be told to be of the trade, all that named a surface are proposed."""
    if any(one.chosen for one in found):
        return found
    return tuple(Offer(one.key, one.words, one.detail, one.passed, one.passed) for one in found)


def _shots(session: Session, build_id: int, places: tuple[int, ...], service: str) -> Iterator[Offer]:
    """Filmed ones of these surfaces; those filmed at work of the trade are proposed."""
    kinds = {task.id: task.kind for task in list_tasks(session, build_id)}
    of: dict[int, set[int]] = {}
    for link in surfaces.list_shot_surfaces(session, build_id):
        of.setdefault(link.shot_id, set()).add(link.surface_id)
    for shot in list_shots(session, build_id):
        seen = of.get(shot.id, set()) & set(places)
        if seen and shot.state == "filmed":
            day = f"Filmed {show_date(shot.filmed_on)}." if shot.filmed_on else "Filmed."
            yield Offer(str(shot.id), shot.what, day, is_work_of(kinds.get(shot.task_id or 0, ""), service))


def _tasks(session: Session, build_id: int, places: tuple[int, ...], service: str) -> Iterator[Offer]:
    """Done work of the trade on these surfaces."""
    here = {one.task_id for one in surfaces.list_task_surfaces(session, build_id) if one.surface_id in places}
    for task in list_tasks(session, build_id):
        if task.id in here and task.state == TaskState.DONE and is_work_of(task.kind, service):
            day = f"Done {show_date(task.done_on)}." if task.done_on else "Done."
            yield Offer(str(task.id), task.title, day, chosen=True)


def _slots(session: Session, build_id: int, item: ItemFacts) -> Iterator[Offer]:
    """Pictures taken of the old surface. Those of the thing itself end anyway and are not offered."""
    of_it = {place.photo_id for place in surfaces.places_of_item(session, build_id, item.id)}
    named = _long_words((item.label,))
    for slot in surfaces.list_slots(session, build_id):
        if slot.surface_id == item.surface_id and slot.photo_id is not None and slot.item_id != item.id:
            shows = slot.photo_id in of_it or bool(named & _long_words((slot.what,)))
            yield Offer(str(slot.id), f"Picture {slot.number}: {slot.what}", "Taken.", shows)


def _long_words(texts: Iterable[str]) -> set[str]:
    return {word for text in texts for word in text.casefold().replace(",", " ").split() if len(word) > 3}
