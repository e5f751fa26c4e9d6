"""The form of an opening, and the schedules of openings and runs on the surface's own sheet."""

from dataclasses import dataclass
from itertools import groupby

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.surfaces.pages.states import opening_state
from webapp.surfaces.rules.kinds import OpeningKind, SurfaceKind
from webapp.surfaces.rules.places import UP
from webapp.surfaces.store import OpeningFacts, RunFacts, SurfaceFacts
from webapp.values.dates import show_date
from webapp.values.length import show_length
from webapp.values.words import plural

OPENING_KINDS = tuple((kind.value, kind.value.capitalize()) for kind in OpeningKind)


@dataclass(frozen=True, slots=True)
class DrawnPage:
    """The form of an opening. `gone`: it is there no more, and since when."""

    sheet: Sheet
    form: FormState
    new: bool
    surface: str
    corner: str
    action: str
    back: str
    choices: tuple[tuple[str, str], ...]
    y_label: str
    gone: str


@dataclass(frozen=True, slots=True)
class DrawnLine:
    """One line of a schedule: what it is, where, and its own form; `gone` when it is there no more."""

    title: str
    detail: str
    href: str
    gone: bool


@dataclass(frozen=True, slots=True)
class Circuit:
    """The stretches of one circuit or line on a surface, and how many there are; `href` of the whole of it."""

    title: str
    count: str
    whole: str
    href: str
    lines: tuple[DrawnLine, ...]


def opening_page(
    session: Session, here: Here, code: str, opening_id: int = 0, form: FormState | None = None
) -> DrawnPage:
    surface = store.get_surface(session, here.build.id, code)
    state, gone = FormState.of(kind=OpeningKind.WINDOW.value), ""
    if opening_id:
        known = store.opening_on(session, here.build.id, surface, opening_id)
        state = opening_state(known, here.build.unit)
        gone = f"There no more since {show_date(known.removed_on)}." if known.removed_on else ""
    back = f"{here.base}/surfaces/{surface.code}"
    return DrawnPage(
        sheet=here.sheet(f"W1-{surface.code}", surface.name, "Openings", surface.facing),
        form=form or state,
        new=not opening_id,
        surface=surface.name,
        corner=surface.origin_corner,
        action=f"{back}/openings/{opening_id}" if opening_id else f"{back}/openings",
        back=back,
        choices=OPENING_KINDS,
        y_label=UP[SurfaceKind(surface.kind)],
        gone=gone,
    )


def opening_lines(here: Here, surface: SurfaceFacts, openings: tuple[OpeningFacts, ...]) -> tuple[DrawnLine, ...]:
    return tuple(_opening(here, surface, one) for one in openings if one.surface_id == surface.id)


def _opening(here: Here, surface: SurfaceFacts, one: OpeningFacts) -> DrawnLine:
    unit = here.build.unit
    size = f"{show_length(one.width_nm, unit)} × {show_length(one.height_nm, unit)}"
    where = f"from {show_length(one.x_nm, unit)} along, {show_length(one.y_nm, unit)} up"
    gone = f" There no more since {show_date(one.removed_on)}." if one.removed_on else ""
    href = f"{here.base}/surfaces/{surface.code}/openings/{one.id}"
    return DrawnLine(one.name, f"{one.kind.capitalize()}, {size}, {where}.{gone}", href, one.removed_on is not None)


def circuits(here: Here, surface: SurfaceFacts, runs: tuple[RunFacts, ...]) -> tuple[Circuit, ...]:
    """By circuit or line, in the order of their short names; what has none comes last."""
    own = sorted((one for one in runs if one.surface_id == surface.id), key=lambda one: (not one.line, one.line))
    found = []
    for tag, grouped in groupby(own, key=lambda one: one.line):
        lines = tuple(_run(here, surface, one) for one in grouped)
        title = f"{tag}: {lines[0].title}" if tag else "Of no circuit or line"
        whole, href = (f"All of {tag}", f"{here.base}/services/{tag}") if tag else ("", "")
        found.append(Circuit(title, plural(len(lines), "stretch", "stretches"), whole, href, lines))
    return tuple(found)


def _run(here: Here, surface: SurfaceFacts, one: RunFacts) -> DrawnLine:
    unit = here.build.unit
    ends = [f"{show_length(x, unit)} along, {show_length(y, unit)} up" for x, y in (one.points[0], one.points[-1])]
    gone = f" Replaced on {show_date(one.replaced_on)}." if one.replaced_on else ""
    href = f"{here.base}/surfaces/{surface.code}/runs/{one.id}"
    return DrawnLine(one.label, f"From {ends[0]} to {ends[1]}.{gone}", href, one.replaced_on is not None)
