"""A surface covered before it was cleared: the form that says so, and the sheet it leaves for ever."""

from collections.abc import Iterable
from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.photos.store import list_photos
from webapp.plan.guard import Here
from webapp.readiness.pages.before_cover import NOUNS
from webapp.readiness.pages.lines import Line, owed_lines
from webapp.readiness.rules import keys
from webapp.readiness.rules.answers import cover_answer
from webapp.readiness.rules.mistaken import needs_a_word
from webapp.readiness.store import Site, on_hand, site
from webapp.surfaces.rules.kinds import CoverStepKind, SurfaceKind
from webapp.surfaces.rules.section import is_turned, layers
from webapp.surfaces.store import CoverFacts, SurfaceFacts, get_mistake, get_surface, list_cover_steps
from webapp.values.dates import show_date, show_day, show_long_day

STEPS = (
    (CoverStepKind.ASKED.value, "Asked", "whom, and what"),
    (CoverStepKind.ANSWERED.value, "Answered", "their words"),
    (CoverStepKind.OPENED.value, "Opened up", "a part or all of it"),
    (CoverStepKind.LOOKED_AT.value, "Looked at", "by whom"),
)
Evidence = tuple[tuple[str, str, str], ...]


@dataclass(frozen=True, slots=True)
class MistakePage:
    """`owed` and `evidence` are what saving will freeze."""

    sheet: Sheet
    name: str
    noun: str
    form: FormState
    action: str
    back: str
    phases: tuple[tuple[str, str], ...]
    owed: tuple[Line, ...]
    evidence: Evidence


@dataclass(frozen=True, slots=True)
class OwedThen:
    """What was owed on the day, and how it stands by now."""

    what: str
    now: str
    href: str
    settled: bool


@dataclass(frozen=True, slots=True)
class StepLine:
    what: str
    detail: str
    paper: str


@dataclass(frozen=True, slots=True)
class CoveringPage:
    """`over` says how it ended, empty while it stands; `may_close`: all is settled by now."""

    sheet: Sheet
    heading: str
    sentence: str
    mark: str
    turned: bool
    noun: str
    over: str
    word_owed: bool
    may_close: bool
    owed: tuple[OwedThen, ...]
    evidence: Evidence
    steps: tuple[StepLine, ...]
    task_title: str
    task_href: str
    took_href: str
    step: FormState
    step_kinds: tuple[tuple[str, str, str], ...]
    cost: FormState
    currency: str
    here: str
    before_cover: str
    word_href: str
    close_href: str
    surface_href: str


def mistake_page(session: Session, here: Here, found: Site, code: str, form: FormState | None = None) -> MistakePage:
    surface = get_surface(session, here.build.id, code)
    answer = cover_answer(found.network, keys.cover(surface.id), surface.name)
    noun = NOUNS[SurfaceKind(surface.kind)]
    href = f"{here.base}/surfaces/{surface.code}"
    phases = tuple((str(phase.id), phase.title) for phase in found.record.phases)
    state = FormState.of(
        extent="all of it",
        on=show_date(here.today),
        who="me",
        layers=surface.closed_by,
        phase=str(_fitting_phase(found, surface) or ""),
        hours="2",
    )
    return MistakePage(
        sheet=here.sheet(f"W2-{surface.code}", "Before cover", f"{surface.name} is covered already", surface.facing),
        name=surface.name,
        noun=noun,
        form=form or state,
        action=f"{href}/covered-already",
        back=f"{href}/before-cover",
        phases=phases or (("", "a new one, “Putting right”"),),
        owed=owed_lines(found.network, (*answer.stops, *answer.wishes)),
        evidence=on_hand(session, found, surface),
    )


def _fitting_phase(found: Site, surface: SurfaceFacts) -> int | None:
    """The phase of the task that closes the surface, else the first one with anything left, else the last."""
    closers = (found.record.task[task].phase_id for task in found.record.closers.get(surface.id, ()))
    left = {node.phase_id for node in found.network.nodes if node.kind == "task" and not node.settled}
    still = (phase.id for phase in found.record.phases if phase.id in left)
    last = found.record.phases[-1].id if found.record.phases else None
    return next(closers, None) or next(still, last)


def covering_page(
    session: Session, here: Here, cover_id: int, step: FormState | None = None, cost: FormState | None = None
) -> CoveringPage:
    """Raises NotFound for what is no covering by mistake of this build."""
    cover = get_mistake(session, here.build.id, cover_id)
    found = site(session, here.build, here.today)
    surface = found.record.surface[cover.surface_id]
    answer = cover_answer(found.network, keys.cover(surface.id), surface.name)
    href, own = f"{here.base}/surfaces/{surface.code}", f"{here.base}/coverings/{cover.id}"
    task = found.record.task.get(cover.task_id or 0)
    task_href = f"{here.base}/tasks/{task.id}" if task else ""
    part = f", {cover.extent}" if cover.extent else ""
    today = show_date(here.today)
    return CoveringPage(
        sheet=here.sheet(f"W2-{surface.code}", "Before cover", f"{surface.name}: covered by mistake", surface.facing),
        heading="Covered, not cleared" if cover.stands else "Covered by mistake",
        sentence=_sentence(cover, f"{surface.name}{part}"),
        mark=layers(found.states[surface.id], large=True),
        turned=is_turned(surface.kind),
        noun=NOUNS[SurfaceKind(surface.kind)],
        over=_over(cover),
        word_owed=cover.stands and needs_a_word(cover.owed_keys),
        may_close=cover.stands and answer.may_be_covered,
        owed=tuple(_owed_then(found, cover)),
        evidence=cover.evidence,
        steps=_steps(session, here, cover),
        task_title=task.title if task else "",
        task_href=task_href,
        took_href=f"{task_href}/took" if task else "",
        step=step or FormState.of(kind=CoverStepKind.ASKED.value, on=today),
        step_kinds=STEPS,
        cost=cost or FormState.of(day=today),
        currency=here.build.currency,
        here=own,
        before_cover=f"{href}/before-cover",
        word_href=f"{href}/let-go#word",
        close_href=f"{href}/cover",
        surface_href=href,
    )


def _sentence(cover: CoverFacts, what: str) -> str:
    with_what = f", {cover.layers}" if cover.layers else ""
    return f"{what}, covered {show_long_day(cover.covered_on)} by {cover.who}{with_what}."


def _over(cover: CoverFacts) -> str:
    if cover.opened_on is not None and cover.cleared_on is None:
        return f"Opened up {show_date(cover.opened_on)}: {cover.opened_why}."
    if cover.cleared_on is not None:
        return f"Closed after all {show_date(cover.cleared_on)}: all that had been owed was settled."
    return ""


def _owed_then(found: Site, cover: CoverFacts) -> Iterable[OwedThen]:
    for (what, where), key in zip(cover.not_cleared, cover.owed_keys, strict=True):
        node = found.network.node(key) if key in found.network else None
        if node is None:
            yield OwedThen(what, f"{where} Not on the list any more.".strip(), "", settled=True)
        elif node.settled:
            day = f" {show_day(node.settled_on, found.today)}" if node.settled_on else ""
            yield OwedThen(what, f"Settled{day}.", node.href, settled=True)
        else:
            yield OwedThen(what, f"Still owed. {node.detail}", node.href, settled=False)


def _steps(session: Session, here: Here, cover: CoverFacts) -> tuple[StepLine, ...]:
    steps = [one for one in list_cover_steps(session, here.build.id) if one.cover_id == cover.id]
    papers = {one.id: one.sha256 for one in list_photos(session, [s.photo_id for s in steps if s.photo_id])}
    return tuple(
        StepLine(
            f"{one.kind[:1].upper()}{one.kind[1:]} {show_day(one.on_day, here.today)}",
            f"{one.who[:1].upper()}{one.who[1:]}{': ' if one.words else '.'}{one.words}",
            f"/photos/{papers[one.photo_id]}/1280" if one.photo_id in papers else "",
        )
        for one in steps
    )
