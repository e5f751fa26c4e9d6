"""The list to begin with, offered while no inspection is written down: in the usual order, all of it editable."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.inspections import store
from webapp.inspections.forms.starting import Ground, named_surfaces, starting_state
from webapp.inspections.rules.starting import LOCAL, STARTING, Known
from webapp.plan.guard import Here
from webapp.plan.store import list_tasks
from webapp.surfaces import store as surfaces
from webapp.values.own_words import own


@dataclass(frozen=True, slots=True)
class StartingLine:
    """One line offered. `mark`: the clause, or that it is a local rule; `on`: surfaces in short, as chosen now."""

    key: str
    name: str
    mark: str
    when: str
    on: str
    ticked: bool


@dataclass(frozen=True, slots=True)
class StartingPage:
    sheet: Sheet
    lines: tuple[StartingLine, ...]
    permits: tuple[tuple[str, str], ...]
    surfaces: tuple[tuple[str, str], ...]
    known: int
    """how many inspections are on the list already"""
    here: str
    back: str
    form: FormState


def starting_ground(session: Session, here: Here) -> Ground:
    """What is on record by now that makes a line likely."""
    build_id = here.build.id
    walls = surfaces.list_surfaces(session, build_id)
    permits = store.list_permits(session, build_id)
    hidden = surfaces.list_items(session, build_id)
    known = store.list_inspections(session, build_id)
    return Ground(
        known=Known(
            surfaces={one.kind for one in walls},
            services={one.service for one in hidden if one.service},
            work={task.kind for task in list_tasks(session, build_id)},
            permits=tuple(one.name for one in permits),
            listed=tuple(one.name for one in known),
        ),
        permits=tuple((one.id, f"{one.name} {one.covers}".strip()) for one in permits),
        surfaces=tuple((one.id, one.kind) for one in walls),
        taken=frozenset(one.code for one in known),
    )


def starting_page(session: Session, here: Here, form: FormState | None = None) -> StartingPage:
    ground = starting_ground(session, here)
    state = form or starting_state(ground)
    walls = surfaces.list_surfaces(session, here.build.id)
    names = {one.id: one.code for one in walls}
    return StartingPage(
        sheet=here.sheet("V2", own("Inspections"), "A list to begin with"),
        lines=tuple(
            StartingLine(
                key=line.key,
                name=line.name,
                mark="Local rule" if line.clause == LOCAL else f"IRC {line.clause}",
                when=line.when,
                on=named_surfaces(names, state.values(f"on_{line.key}")),
                ticked=state.value(f"take_{line.key}") != "",
            )
            for line in STARTING
        ),
        permits=tuple((str(one.id), f"{one.code}, {one.name}") for one in store.list_permits(session, here.build.id)),
        surfaces=tuple((str(one.id), f"{one.code}, {one.name}") for one in walls),
        known=len(ground.taken),
        here=f"{here.base}/inspections/start",
        back=f"{here.base}/inspections",
        form=state,
    )
