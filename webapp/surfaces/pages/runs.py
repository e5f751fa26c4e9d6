"""The form of a run: its way on one surface, the things at its ends, and the stretch it goes on from."""

from collections.abc import Sequence
from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.surfaces.pages.making import SERVICE_CHOICES, line_choices
from webapp.surfaces.pages.offsets import tags_of
from webapp.surfaces.pages.states import run_state
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.places import UP
from webapp.surfaces.rules.tagging import UNLETTERED
from webapp.surfaces.store import RunFacts, SurfaceFacts
from webapp.values.dates import show_date
from webapp.values.length import show_length
from webapp.values.verdict import Way


@dataclass(frozen=True, slots=True)
class Options:
    """Choices below one heading."""

    label: str
    options: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Asked:
    """What the address of a new run says: the short name of its line, or the stretch it goes on from."""

    line: str = ""
    goes_on: int = 0


@dataclass(frozen=True, slots=True)
class RunPage:
    """`things`: what it can begin and end at, by surface; `before`: stretches it can go on from, by line; `onward`: the
    surfaces on which this one can go on; `gone`: replaced, and since when."""

    sheet: Sheet
    form: FormState
    new: bool
    surface: str
    corner: str
    action: str
    back: str
    services: tuple[tuple[str, str], ...]
    lines: tuple[tuple[str, str], ...]
    things: tuple[Options, ...]
    before: tuple[Options, ...]
    line_href: str
    onward: tuple[Way, ...]
    y_label: str
    gone: str


def run_page(
    session: Session, here: Here, code: str, run_id: int = 0, form: FormState | None = None, asked: Asked | None = None
) -> RunPage:
    """`run_id` 0: a new one, begun with what is `asked` in the address."""
    surface = store.get_surface(session, here.build.id, code)
    gone, onward = "", tuple[Way, ...]()
    if run_id:
        known = store.run_on(session, here.build.id, surface, run_id)
        state = run_state(known, here.build.unit)
        gone = f"Replaced on {show_date(known.replaced_on)}." if known.replaced_on else ""
        onward = _onward(session, here, surface, known)
    else:
        state = _begun(session, here, asked or Asked())
    form = form or state
    back = f"{here.base}/surfaces/{surface.code}"
    return RunPage(
        sheet=here.sheet(f"W1-{surface.code}", surface.name, "Runs", surface.facing),
        form=form,
        new=not run_id,
        surface=surface.name,
        corner=surface.origin_corner,
        action=f"{back}/runs/{run_id}" if run_id else f"{back}/runs",
        back=back,
        services=SERVICE_CHOICES,
        lines=line_choices(session, here, form.value("line")),
        things=_things(session, here, surface, (form.value("from_item"), form.value("to_item"))),
        before=_before(session, here, surface, run_id, form),
        line_href=f"{here.base}/services/{state.value('line')}" if run_id and state.value("line") else "",
        onward=onward,
        y_label=UP[SurfaceKind(surface.kind)],
        gone=gone,
    )


def _begun(session: Session, here: Here, asked: Asked) -> FormState:
    """What is known of a new run before a word is typed."""
    line = next((one for one in store.list_lines(session, here.build.id) if one.code == asked.line), None)
    if asked.goes_on:
        before = store.get_run(session, here.build.id, asked.goes_on)
        ends = {"from_item": before.from_item_id, "to_item": before.to_item_id}
        shown = {name: str(number) for name, number in ends.items() if number is not None}
        label = {"label": before.label, "line": before.line, "service": before.service}
        return FormState.of(goes_on=str(before.id), **label, **shown)
    if line is not None:
        label_of = ", ".join(part for part in (line.name, line.cable) if part)
        return FormState.of(line=line.code, service=line.service, label=label_of)
    return FormState.of(service="electric")


def _onward(session: Session, here: Here, surface: SurfaceFacts, own: RunFacts) -> tuple[Way, ...]:
    """Nowhere for a run that was replaced, that goes on already, or that ends at a thing on this surface."""
    end = store.get_item(session, here.build.id, own.to_item_id) if own.to_item_id is not None else None
    goes_on = any(
        run.continues_id == own.id and run.replaced_on is None for run in store.list_runs(session, here.build.id)
    )
    if own.replaced_on is not None or goes_on or (end is not None and end.surface_id == surface.id):
        return ()
    return tuple(
        Way(one.name, f"{here.base}/surfaces/{one.code}/runs/new?goes_on={own.id}")
        for one in store.list_surfaces(session, here.build.id)
        if one.id != surface.id
    )


def _things(session: Session, here: Here, surface: SurfaceFacts, chosen: Sequence[str]) -> tuple[Options, ...]:
    """What a run can begin or end at, this surface first; what was moved only where it is chosen already."""
    items = store.list_items(session, here.build.id)
    tags = tags_of(items)
    listed: dict[int, list[tuple[str, str]]] = {surface.id: []}
    for item in items:
        wanted = item.replaced_on is None and item.service != "framing" and item.kind not in UNLETTERED
        if wanted or str(item.id) in chosen:
            words = " ".join(part for part in (tags.get(item.id, ""), item.label) if part)
            listed.setdefault(item.surface_id, []).append((str(item.id), words))
    names = {one.id: one.name for one in store.list_surfaces(session, here.build.id)}
    return tuple(Options(names[number], tuple(options)) for number, options in listed.items() if options)


def _before(session: Session, here: Here, surface: SurfaceFacts, run_id: int, form: FormState) -> tuple[Options, ...]:
    """Stretches on other surfaces, by line; only those of the line that is chosen, once one is."""
    line, chosen = form.value("line"), form.value("goes_on")
    names = {one.id: one.name for one in store.list_surfaces(session, here.build.id)}
    lines = {one.code: f"{one.code} {one.name}" for one in store.list_lines(session, here.build.id)}
    listed: dict[str, list[tuple[str, str]]] = {}
    for run in store.list_runs(session, here.build.id):
        there = run.surface_id != surface.id and run.id != run_id and run.line and run.replaced_on is None
        if (there and line in {"", run.line}) or str(run.id) == chosen:
            told = f"{names[run.surface_id]}: {_ends(run, here.build.unit)}"
            listed.setdefault(run.line, []).append((str(run.id), told))
    return tuple(Options(lines.get(code, "Of no line"), tuple(listed[code])) for code in sorted(listed))


def _ends(run: RunFacts, unit: str) -> str:
    x, y = run.points[-1]
    return f"{run.label}, ends {show_length(x, unit)} along, {show_length(y, unit)} up"
