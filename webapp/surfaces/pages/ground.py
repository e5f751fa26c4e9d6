"""What only a trench or a slab has: depths along it, tied points, and the cautions of digging."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.plan.guard import Here
from webapp.plan.rules.cautions import DIGGING, TRENCH, Caution
from webapp.surfaces import store
from webapp.surfaces.pages.states import tie_state
from webapp.surfaces.rules.depths import COVERS, SOURCE, depth_of
from webapp.surfaces.rules.drawing import Drawing
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.strip import strip
from webapp.surfaces.rules.tagging import face_of
from webapp.surfaces.rules.ties import TIED, bends_between, letter_of, lettered
from webapp.surfaces.store import RunFacts, SurfaceFacts, TieFacts
from webapp.values.dates import show_date
from webapp.values.errors import NotFound
from webapp.values.length import show_length
from webapp.values.words import join_words


@dataclass(frozen=True, slots=True)
class TieRow:
    """A tied point: its number in the strip (empty once it is gone), where it is, and its two distances."""

    tag: str
    name: str
    note: str
    x: str
    ties: tuple[str, str]
    href: str
    gone: bool


@dataclass(frozen=True, slots=True)
class DepthRow:
    """How deep one run lies: the least of it, at each bend, and what is to be said where it changes."""

    title: str
    href: str
    least: str
    bends: str
    changes: str


@dataclass(frozen=True, slots=True)
class Ground:
    """`wide` and `narrow` are the strip of tied points; None while nothing is tied or the length is not known."""

    ties: tuple[TieRow, ...]
    wide: Drawing | None
    narrow: Drawing | None
    hints: tuple[str, ...]
    depths: tuple[DepthRow, ...]
    covers: tuple[tuple[str, str], ...]
    covers_source: str
    cautions: tuple[Caution, ...]
    trench: bool


def ground_of(session: Session, here: Here, surface: SurfaceFacts) -> Ground | None:
    """None for what is not in the ground."""
    if surface.kind not in TIED:
        return None
    unit, trench = here.build.unit, surface.kind == SurfaceKind.TRENCH
    ties = store.ties_of(session, here.build.id, surface.id)
    standing = tuple(tie for tie in ties if tie.removed_on is None)
    face, letters = face_of(surface, unit), lettered(standing)
    drawn = (strip(face, standing, wide=True), strip(face, standing, wide=False)) if face and standing else (None, None)
    runs = [run for run in store.list_runs(session, here.build.id) if run.surface_id == surface.id] if trench else []
    return Ground(
        ties=tuple(_tie(here, surface, tie, _number(standing, tie), letters) for tie in ties),
        wide=drawn[0],
        narrow=drawn[1],
        hints=_hints(surface, standing, unit),
        depths=tuple(row for run in runs if run.replaced_on is None for row in _depth(here, surface, run)),
        covers=tuple((cover.what, show_length(cover.least_nm, unit)) for cover in COVERS) if trench else (),
        covers_source=SOURCE,
        cautions=(DIGGING, TRENCH) if trench and surface.covered_on is None else (),
        trench=trench,
    )


def _number(standing: tuple[TieFacts, ...], tie: TieFacts) -> int:
    """As in the strip, from the corner on; 0 for one that is gone."""
    return standing.index(tie) + 1 if tie in standing else 0


def _tie(here: Here, surface: SurfaceFacts, tie: TieFacts, number: int, letters: dict[str, str]) -> TieRow:
    unit = here.build.unit
    ties = ((tie.from_a, tie.a_nm), (tie.from_b, tie.b_nm))
    gone = f"No longer good since {show_date(tie.removed_on)}." if tie.removed_on else ""
    return TieRow(
        tag=f"P{number}" if number else "",
        name=tie.name,
        note=" ".join(part for part in (tie.note, gone) if part),
        x=show_length(tie.x_nm, unit),
        ties=(_from(ties[0], unit, letters, number), _from(ties[1], unit, letters, number)),
        href=f"{here.base}/surfaces/{surface.code}/ties/{tie.id}",
        gone=bool(tie.removed_on),
    )


def _from(tie: tuple[str, int], unit: str, letters: dict[str, str], number: int) -> str:
    """ "57′ 4″ from B, porch corner" """
    name, distance = tie
    letter = f"{letter_of(letters, name)}, " if number else ""
    return f"{show_length(distance, unit)} from {letter}{name}"


def _hints(surface: SurfaceFacts, ties: tuple[TieFacts, ...], unit: str) -> tuple[str, ...]:
    return tuple(
        f"{apart.other} lie {show_length(apart.along_nm, unit)} apart along the trench, but from {apart.fixed} they "
        f"are {show_length(apart.ties_nm, unit)} together: either it bends between them, or a length is wrong."
        for apart in bends_between(surface.kind, ties)
    )


def _depth(here: Here, surface: SurfaceFacts, run: RunFacts) -> tuple[DepthRow, ...]:
    """One row, or none for a run that only goes up or down."""
    unit, depth = here.build.unit, depth_of(run.points)
    if depth is None:
        return ()
    at = [f"{show_length(y, unit)} at {show_length(x, unit)}" for x, y in depth.bends]
    words = ", ".join(at)
    if not depth.changes:
        ends = (min(x for x, _ in depth.bends), max(x for x, _ in depth.bends))
        words = f"The same from {show_length(ends[0], unit)} to {show_length(ends[1], unit)}."
    changes = ""
    if depth.changes:
        where = join_words(
            [f"{show_length(start[0], unit)} and {show_length(end[0], unit)}" for start, end in depth.changes]
        )
        changes = f"It changes between {where}." + ("" if run.note else " If that is meant, say so in its note.")
    title = f"{run.line} {run.label}".strip()
    href = f"{here.base}/surfaces/{surface.code}/runs/{run.id}"
    return (DepthRow(title, href, show_length(depth.least_nm, unit), words, changes),)


@dataclass(frozen=True, slots=True)
class TiePage:
    """The form of a tied point; `known` are fixed points named before, `gone` says since when it is not good."""

    sheet: Sheet
    form: FormState
    new: bool
    surface: str
    corner: str
    action: str
    back: str
    known: tuple[str, ...]
    gone: str


def tie_page(session: Session, here: Here, code: str, tie_id: int = 0, form: FormState | None = None) -> TiePage:
    """Raises NotFound for a surface that is not in the ground."""
    surface = store.get_surface(session, here.build.id, code)
    if surface.kind not in TIED:
        raise NotFound(
            f"{surface.name} is found again by its corners; only a trench or a slab is tied to fixed points."
        )
    back, state, gone = f"{here.base}/surfaces/{surface.code}", FormState.of(), ""
    if tie_id:
        tie = store.tie_on(session, here.build.id, surface, tie_id)
        state = tie_state(tie, here.build.unit)
        gone = f"No longer good since {show_date(tie.removed_on)}." if tie.removed_on else ""
    return TiePage(
        sheet=here.sheet(f"W1-{surface.code}", surface.name, "Tied to fixed points"),
        form=form or state,
        new=not tie_id,
        surface=surface.name,
        corner=surface.origin_corner or "the corner",
        action=f"{back}/ties/{tie_id}" if tie_id else f"{back}/ties",
        back=back,
        known=tuple(lettered(store.list_ties(session, here.build.id))),
        gone=gone,
    )
