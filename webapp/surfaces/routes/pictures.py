"""W4: pictures come in and get a place."""

from typing import Annotated

from fastapi import APIRouter, Query, Request
from starlette.responses import Response

from webapp.core import clock
from webapp.core.dependencies import Config, Reading, Sending, Writing
from webapp.core.forms import BadForm
from webapp.core.rendering import go_to, render, render_kept
from webapp.plan.guard import ThisBuild
from webapp.surfaces import actions, forms, pages, store
from webapp.surfaces.forms import PlaceForm
from webapp.surfaces.pages import View

router = APIRouter(prefix="/pictures")
TEMPLATE = "surfaces/pictures.html"


@router.get("")
def pictures(
    request: Request,
    session: Reading,
    here: ThisBuild,
    config: Config,
    surface: str = "",
    slot: str = "",
    item: str = "",
    by: str = "newest",
    turn: Annotated[int, Query(ge=1, le=10_000)] = 1,
) -> Response:
    view = View(surface, slot, item, by, turn)
    return render_kept(
        request, session, here, TEMPLATE, lambda: pages.pictures_page(session, here, view, config.picture_mb)
    )


def _place(session: Writing, here: ThisBuild, sent: Sending, files: int = 1, required: str = "") -> PlaceForm:
    build_id = here.build.id
    surfaces, items = store.list_surfaces(session, build_id), store.list_items(session, build_id)
    return forms.read_place(sent, surfaces, items, store.list_slots(session, build_id), files, required)


@router.post("")
def take_in(request: Request, session: Writing, here: ThisBuild, config: Config, sent: Sending) -> Response:
    """Whatever else is wrong, the pictures among the files are kept: a browser does not send them again by itself."""
    files = [(upload.file, upload.filename or "") for upload in sent.files("pictures")]
    taken = actions.take_in(session, here.build.id, config.photos, files, config.picture_mb, clock.now())
    try:
        place = _place(session, here, sent, files=len(taken.kept))
    except BadForm as bad:
        page = pages.pictures_page(session, here, View(), config.picture_mb, bad.state, pages.said_of(taken, "", files))
        return render(request, TEMPLATE, page, status=422)
    for photo in taken.kept:
        actions.place_picture(session, here.build.id, photo.photo_id, place.surface_id, place.item_id, place.slot_id)
    code = next((s.code for s in store.list_surfaces(session, here.build.id) if s.id == place.surface_id), "")
    if taken.refused or not files:
        view, words = View(code), pages.said_of(taken, code, files)
        return render(
            request, TEMPLATE, pages.pictures_page(session, here, view, config.picture_mb, refused=words), status=422
        )
    return go_to(
        pages.after_sending(session, here, taken, code, place.slot_id), say=" ".join(pages.said_of(taken, code, files))
    )
