"""W4: pictures come in and get a place."""

from typing import Annotated

from fastapi import APIRouter, Query, Request
from sqlmodel import Session
from starlette.responses import Response

from webapp.core import clock, once
from webapp.core.dependencies import Config, Reading, Sending, Writing
from webapp.core.forms import BadForm, FormState, Submitted
from webapp.core.rendering import go_to, render, render_kept
from webapp.core.settings import Settings
from webapp.plan.guard import Here, ThisBuild
from webapp.surfaces import actions, forms, pages, store
from webapp.surfaces.guard import LastSurface, stay_at
from webapp.surfaces.pages import View

router = APIRouter(prefix="/pictures")
TEMPLATE, MANY = "surfaces/pictures.html", "surfaces/many.html"


@router.get("")
def pictures(
    request: Request,
    session: Reading,
    here: ThisBuild,
    config: Config,
    last: LastSurface,
    surface: str = "",
    slot: str = "",
    item: str = "",
    by: str = "newest",
    turn: Annotated[int, Query(ge=1, le=10_000)] = 1,
) -> Response:
    view = View(surface, slot, item, by, turn, last)
    return render_kept(
        request, session, (here, last), TEMPLATE, lambda: pages.pictures_page(session, here, view, config.picture_mb)
    )


@router.get("/many")
def many(
    request: Request,
    session: Reading,
    here: ThisBuild,
    config: Config,
    last: LastSurface,
    surface: str = "",
    came: str = "",
) -> Response:
    """One picture after the other, all of one surface; `came` are those sent just now."""
    at = pages.surface_asked(session, here, surface, last)
    page = pages.many_page(session, here, at, pages.read_ids(came), config.picture_mb)
    return render(request, MANY, page)


@router.post("")
def take_in(request: Request, session: Writing, here: ThisBuild, config: Config, sent: Sending) -> Response:
    """Whatever else is wrong, the pictures among the files are kept: a browser does not send them again by itself."""
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    build_id = here.build.id
    surfaces, items = store.list_surfaces(session, build_id), store.list_items(session, build_id)
    files = [(upload.file, upload.filename or "") for upload in sent.files("pictures")]
    taken = actions.take_in(session, build_id, config.photos, files, config.picture_mb, clock.now())
    try:
        place = forms.read_place(sent, surfaces, items, store.list_slots(session, build_id), files=len(taken.kept))
    except BadForm as bad:
        return _again(request, session, here, config, sent, taken, pages.said_of(taken, "", files), bad.state)
    for photo in taken.kept:
        actions.place_picture(session, build_id, photo.photo_id, place.surface_id, place.item_id, place.slot_id)
    code = next((surface.code for surface in surfaces if surface.id == place.surface_id), "")
    said = pages.said_of(taken, code, files)
    if taken.refused or not files:
        session.flush()
        answer = _again(request, session, here, config, sent, taken, said, FormState.of(surface=code))
        return stay_at(answer, place.surface_id)
    onward = pages.after_sending(session, here, taken, code, place.slot_id, many=sent.text("on_to") == "many")
    return stay_at(go_to(saving.remember(onward), say=" ".join(said)), place.surface_id)


def _again(
    request: Request,
    session: Session,
    here: Here,
    config: Settings,
    sent: Submitted,
    taken: actions.TakenIn,
    said: tuple[str, ...],
    form: FormState,
) -> Response:
    """The form it was sent from, with what was not kept and why."""
    limit, code = config.picture_mb, form.value("surface")
    if sent.text("on_to") == "many":
        at, came = pages.surface_asked(session, here, code, ""), tuple(photo.photo_id for photo in taken.kept)
        return render(request, MANY, pages.many_page(session, here, at, came, limit, form, said), status=422)
    page = pages.pictures_page(session, here, View(code if not form.errors else ""), limit, form, said)
    return render(request, TEMPLATE, page, status=422)
