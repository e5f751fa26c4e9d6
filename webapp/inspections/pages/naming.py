"""What papers can be about, named once for every page that asks: from the permit down to a single box."""

from collections.abc import Iterator

from sqlmodel import Session

from webapp.hired.store import list_hired
from webapp.inspections import store
from webapp.inspections.rules.facts import InspectionFacts
from webapp.papers.rules.kinds import AboutKind
from webapp.papers.rules.things import About, Thing
from webapp.plan import store as plan
from webapp.plan.guard import Here
from webapp.plan.rules.kinds import TaskState
from webapp.surfaces import store as surfaces
from webapp.values.dates import show_day


def name_things(session: Session, here: Here) -> tuple[Thing, ...]:
    """Everything a paper can be filed under. Each list is read again only after a write to its own tables."""
    return (*_seen(session, here), *_built(session, here), *_done(session, here))


def _on(surface_ids: tuple[int, ...]) -> tuple[About, ...]:
    return tuple((AboutKind.SURFACE.value, surface_id) for surface_id in surface_ids)


def _seen(session: Session, here: Here) -> Iterator[Thing]:
    """Permits, inspections and visits; a visit has at hand what is about its permit, its surfaces and all in them."""
    in_them: dict[int, list[About]] = {}
    for item in surfaces.list_items(session, here.build.id):
        in_them.setdefault(item.surface_id, []).append((AboutKind.ITEM.value, item.id))

    def looked_at(kind: InspectionFacts) -> tuple[About, ...]:
        return (*_on(kind.surface_ids), *(one for surface in kind.surface_ids for one in in_them.get(surface, ())))

    base, build_id = here.base, here.build.id
    for permit in store.list_permits(session, build_id):
        label = f"{permit.code} {permit.name}"
        yield Thing(AboutKind.PERMIT, permit.id, permit.code, label, f"{base}/permits/{permit.code}")
    kinds = {kind.id: kind for kind in store.list_inspections(session, build_id)}
    for kind in kinds.values():
        also = ((AboutKind.PERMIT.value, kind.permit_id), *looked_at(kind))
        href = f"{base}/inspections/{kind.code}"
        yield Thing(AboutKind.INSPECTION, kind.id, kind.code, kind.name, href, also)
    for visit in store.list_visits(session, build_id):
        kind = kinds[visit.inspection_id]
        day = show_day(visit.day, here.today) if visit.day else "day not set"
        also = ((AboutKind.INSPECTION.value, kind.id), (AboutKind.PERMIT.value, kind.permit_id), *looked_at(kind))
        href = f"{base}/visits/{visit.id}"
        yield Thing(AboutKind.VISIT, visit.id, str(visit.id), f"{kind.name}, {day}", href, also)


def _built(session: Session, here: Here) -> Iterator[Thing]:
    """Surfaces, what is hidden in them, circuits and lines."""
    base, build_id = here.base, here.build.id
    codes = {}
    for surface in surfaces.list_surfaces(session, build_id):
        codes[surface.id] = surface.code
        href = f"{base}/surfaces/{surface.code}"
        yield Thing(AboutKind.SURFACE, surface.id, surface.code, surface.name, href)
    for item in surfaces.list_items(session, build_id):
        code = codes[item.surface_id]
        label, href = f"{code}: {item.label}", f"{base}/surfaces/{code}/items/{item.id}"
        past = item.replaced_on is not None
        also = (*_on((item.surface_id,)), *(((AboutKind.LINE.value, item.line_id),) if item.line_id else ()))
        yield Thing(AboutKind.ITEM, item.id, str(item.id), label, href, also, past)
    for line in surfaces.list_lines(session, build_id):
        label, href = f"{line.code} {line.name}", f"{base}/services/{line.code}"
        yield Thing(AboutKind.LINE, line.id, line.code, label, href, past=line.ended_on is not None)


def _done(session: Session, here: Here) -> Iterator[Thing]:
    """Tasks, and trades that are hired."""
    base, build_id = here.base, here.build.id
    on: dict[int, list[int]] = {}
    for link in surfaces.list_task_surfaces(session, build_id):
        on.setdefault(link.task_id, []).append(link.surface_id)
    for task in plan.list_tasks(session, build_id):
        also, done = _on(tuple(on.get(task.id, ()))), task.state == TaskState.DONE
        href = f"{base}/tasks/{task.id}"
        yield Thing(AboutKind.TASK, task.id, str(task.id), task.title, href, also, done)
    for hired in list_hired(session, build_id):
        label, href = hired.trade.capitalize(), f"{base}/hired/{hired.code}"
        yield Thing(AboutKind.HIRED, hired.id, hired.code, label, href)
