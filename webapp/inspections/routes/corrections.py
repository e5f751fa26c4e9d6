"""A correction: each step it goes, and putting its words right."""

from collections.abc import Callable

from fastapi import APIRouter, Request
from sqlmodel import Session
from starlette.responses import Response

from webapp.core.dependencies import Config, Reading, Sending, Writing
from webapp.core.forms import BadForm, Submitted
from webapp.core.rendering import go_to, render
from webapp.core.settings import Settings
from webapp.inspections import actions, forms, pages, store
from webapp.photos.actions import keeping
from webapp.plan.guard import Here, ThisBuild
from webapp.surfaces.forms import read_pin
from webapp.surfaces.store import surface_by_id
from webapp.values.errors import NotFound

router = APIRouter(prefix="/corrections/{correction_id}")
TEMPLATE = "inspections/correction.html"


def _step(
    request: Request,
    session: Session,
    here: Here,
    sent: Submitted,
    config: Settings,
    correction_id: int,
    act: Callable[[forms.Step], None],
) -> Response:
    """Read the small form all steps share, act, and come back to the correction."""
    do = request.url.path.rpartition("/")[2]
    was = store.get_correction(session, here.build.id, correction_id)
    said_on = store.get_result(session, here.build.id, was.result_id).day
    keep = keeping(session, config.photos, config.picture_mb)
    try:
        step = forms.read_step(sent, here.today, keep, was, said_on, do)
    except BadForm as bad:
        page = pages.correction_page(session, here, correction_id, bad.state, do)
        return render(request, TEMPLATE, page, status=422)
    act(step)
    return go_to(f"{here.base}/corrections/{correction_id}", say="Written down.")


@router.get("")
def correction(request: Request, session: Reading, here: ThisBuild, correction_id: int, do: str = "") -> Response:
    return render(request, TEMPLATE, pages.correction_page(session, here, correction_id, do=do))


@router.post("/done")
def correction_done(
    request: Request, session: Writing, here: ThisBuild, sent: Sending, config: Config, correction_id: int
) -> Response:
    def act(step: forms.Step) -> None:
        actions.correction_done(session, here.build.id, correction_id, step.on, step.photo_id, step.words)

    return _step(request, session, here, sent, config, correction_id, act)


@router.post("/sent")
def send_picture(
    request: Request, session: Writing, here: ThisBuild, sent: Sending, config: Config, correction_id: int
) -> Response:
    def act(step: forms.Step) -> None:
        actions.send_picture(session, here.build.id, correction_id, step.on, step.photo_id, step.words)

    return _step(request, session, here, sent, config, correction_id, act)


@router.post("/clear")
def clear_correction(
    request: Request, session: Writing, here: ThisBuild, sent: Sending, config: Config, correction_id: int
) -> Response:
    def act(step: forms.Step) -> None:
        actions.clear_correction(session, here.build.id, correction_id, step.on, step.who, step.words)

    return _step(request, session, here, sent, config, correction_id, act)


@router.post("/reopen")
def reopen_correction(
    request: Request, session: Writing, here: ThisBuild, sent: Sending, config: Config, correction_id: int
) -> Response:
    def act(step: forms.Step) -> None:
        actions.reopen_correction(session, here.build.id, correction_id, step.on, step.words)

    return _step(request, session, here, sent, config, correction_id, act)


@router.post("/words")
def amend_correction(
    request: Request, session: Writing, here: ThisBuild, sent: Sending, config: Config, correction_id: int
) -> Response:
    was = store.get_correction(session, here.build.id, correction_id)
    try:
        new = forms.read_correction_words(sent, was, keeping(session, config.photos, config.picture_mb))
    except BadForm as bad:
        page = pages.correction_page(session, here, correction_id, bad.state, "words")
        return render(request, TEMPLATE, page, status=422)
    actions.amend_correction(
        session,
        here.build.id,
        correction_id,
        here.today,
        new.words,
        new.place,
        new.form,
        new.rule_cited,
        new.clears_by,
        new.photo_id,
        new.who_said,
        new.likely_min,
    )
    return go_to(f"{here.base}/corrections/{correction_id}", say="Put right. What it said before is kept below.")


@router.post("/place")
def place_correction(
    request: Request, session: Writing, here: ThisBuild, sent: Sending, correction_id: int
) -> Response:
    """Where it is on the drawing, tapped or typed."""
    was = store.get_correction(session, here.build.id, correction_id)
    if was.surface_id is None:
        raise NotFound("This one is about the whole building, which has no drawing.")
    surface = surface_by_id(session, here.build.id, was.surface_id)
    try:
        at = read_pin(sent, here, surface)
    except BadForm as bad:
        page = pages.correction_page(session, here, correction_id, bad.state, "place")
        return render(request, TEMPLATE, page, status=422)
    old, new = pages.spot_words(here, surface, was.x_nm, was.y_nm), pages.spot_words(here, surface, *at)
    actions.place_correction(session, here.build.id, correction_id, at, here.today, old, new)
    return go_to(f"{here.base}/corrections/{correction_id}#place", say=f"On the drawing of {surface.name}: {new}.")
