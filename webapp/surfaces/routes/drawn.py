"""Openings of a surface, and the runs of cable, pipe and duct on it."""

from fastapi import APIRouter, Request
from sqlmodel import Session
from starlette.responses import Response

from webapp.core import once
from webapp.core.dependencies import Reading, Sending, Writing
from webapp.core.forms import BadForm, Submitted
from webapp.core.merging import merged
from webapp.core.rendering import go_to, render
from webapp.plan.guard import Here, ThisBuild
from webapp.surfaces import actions, forms, pages, store

router = APIRouter(prefix="/surfaces/{code}")
OPENING, RUN = "surfaces/opening.html", "surfaces/run.html"


def _read_opening(
    session: Session, here: Here, sent: Submitted, surface: store.SurfaceFacts, known: store.OpeningFacts | None = None
) -> actions.OpeningDraft:
    """One that is gone and stays so lies in nobody's way."""
    if known and known.removed_on and not sent.text("there"):
        return forms.read_opening(sent, here, surface, (), (), ())
    build_id, but = here.build.id, known.id if known else 0
    others = [one for one in store.openings_of(session, build_id, surface.id) if one.id != but]
    items = [one for one in store.list_items(session, build_id) if one.surface_id == surface.id]
    runs = [one for one in store.list_runs(session, build_id) if one.surface_id == surface.id]
    return forms.read_opening(sent, here, surface, others, items, runs)


@router.get("/openings/new")
def new_opening(request: Request, session: Reading, here: ThisBuild, code: str) -> Response:
    return render(request, OPENING, pages.opening_page(session, here, code))


@router.post("/openings")
def add_opening(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str) -> Response:
    surface = store.get_surface(session, here.build.id, code)
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    try:
        draft = _read_opening(session, here, sent, surface)
    except BadForm as bad:
        return render(request, OPENING, pages.opening_page(session, here, code, 0, bad.state), status=422)
    made = actions.add_opening(session, surface.id, draft)
    back = f"{here.base}/surfaces/{surface.code}#openings"
    return go_to(saving.remember(back), say=f"“{made.name}” is drawn.")


@router.get("/openings/{opening_id}")
def opening(request: Request, session: Reading, here: ThisBuild, code: str, opening_id: int) -> Response:
    return render(request, OPENING, pages.opening_page(session, here, code, opening_id))


@router.post("/openings/{opening_id}")
def save_opening(
    request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str, opening_id: int
) -> Response:
    """Put right; with `gone` it is there no more and stays listed with the day; with `there` it is there after all."""
    surface = store.get_surface(session, here.build.id, code)
    known = store.opening_on(session, here.build.id, surface, opening_id)
    back = f"{here.base}/surfaces/{surface.code}#openings"
    if sent.text("gone"):
        actions.remove_opening(session, here.build.id, known.id, here.today)
        return go_to(back, say=f"“{known.name}” is drawn no more. It stays listed.")
    try:
        sent = merged(sent, pages.opening_page(session, here, code, opening_id).form)
        draft = _read_opening(session, here, sent, surface, known)
    except BadForm as bad:
        return render(request, OPENING, pages.opening_page(session, here, code, opening_id, bad.state), status=422)
    if sent.text("there"):
        actions.return_opening(session, here.build.id, known.id, draft)
        return go_to(back, say=f"“{draft.name}” is drawn again.")
    actions.edit_opening(session, here.build.id, known.id, draft)
    return go_to(back, say="Saved. What it said before stays readable.")


def _read_run(
    session: Session, here: Here, sent: Submitted, surface: store.SurfaceFacts, own: store.RunFacts | None = None
) -> actions.RunDraft:
    build_id = here.build.id
    around = forms.Around(surface, store.list_items(session, build_id), store.list_runs(session, build_id), own)
    openings = store.openings_of(session, build_id, surface.id)
    return forms.read_run(sent, here, around, openings, store.list_lines(session, build_id))


@router.get("/runs/new")
def new_run(
    request: Request, session: Reading, here: ThisBuild, code: str, line: str = "", goes_on: int = 0
) -> Response:
    """Begun with its line, or with the stretch on another surface that it goes on from."""
    asked = pages.Asked(line, goes_on)
    return render(request, RUN, pages.run_page(session, here, code, asked=asked))


@router.post("/runs")
def add_run(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str) -> Response:
    surface = store.get_surface(session, here.build.id, code)
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    try:
        draft = _read_run(session, here, sent, surface)
    except BadForm as bad:
        return render(request, RUN, pages.run_page(session, here, code, 0, bad.state), status=422)
    made = actions.add_run(session, surface.id, draft)
    back = f"{here.base}/surfaces/{surface.code}#runs"
    return go_to(saving.remember(back), say=f"“{made.label}” is drawn.")


@router.get("/runs/{run_id}")
def run(request: Request, session: Reading, here: ThisBuild, code: str, run_id: int) -> Response:
    return render(request, RUN, pages.run_page(session, here, code, run_id))


@router.post("/runs/{run_id}")
def save_run(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str, run_id: int) -> Response:
    """Put right, or, with `moved`, write down that it was pulled anew: then the old way stays on record."""
    surface = store.get_surface(session, here.build.id, code)
    known = store.run_on(session, here.build.id, surface, run_id)
    try:
        sent = merged(sent, pages.run_page(session, here, code, run_id).form)
        draft = _read_run(session, here, sent, surface, known)
    except BadForm as bad:
        return render(request, RUN, pages.run_page(session, here, code, run_id, bad.state), status=422)
    if sent.text("moved"):
        actions.replace_run(session, here.build.id, known.id, draft, here.today)
        say = f"“{draft.label}” has its new way. The old one stays on record."
    else:
        actions.edit_run(session, here.build.id, known.id, draft)
        say = "Saved. What it said before stays readable."
    return go_to(f"{here.base}/surfaces/{surface.code}#runs", say=say)
