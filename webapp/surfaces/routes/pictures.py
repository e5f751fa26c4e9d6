"""W4: pictures come in, get a place and a date."""

from typing import Annotated

from fastapi import APIRouter, Query, Request
from starlette.responses import Response

from webapp.core import clock
from webapp.core.dependencies import Config, Reading, Sending, Writing
from webapp.core.forms import BadForm
from webapp.core.rendering import go_to, render, render_kept
from webapp.photos.actions import set_caption, set_taken
from webapp.photos.store import get_photo
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


@router.get("/{photo_id}")
def one_picture(request: Request, session: Reading, here: ThisBuild, photo_id: int) -> Response:
    return render(request, "surfaces/picture.html", pages.picture_page(session, here, photo_id))


@router.post("/{photo_id}/date")
def date(request: Request, session: Writing, here: ThisBuild, sent: Sending, photo_id: int) -> Response:
    page = pages.picture_page(session, here, photo_id)
    try:
        taken = forms.read_taken(sent, here, get_photo(session, photo_id).received_at.astimezone().date())
    except BadForm as bad:
        page = pages.picture_page(session, here, photo_id, "date", bad.state)
        return render(request, "surfaces/picture.html", page, status=422)
    set_taken(session, photo_id, taken)
    return go_to(page.href, say="The date is on record." if taken else "The date is unknown now.")


@router.post("/{photo_id}/caption")
def caption(request: Request, session: Writing, here: ThisBuild, sent: Sending, photo_id: int) -> Response:
    page = pages.picture_page(session, here, photo_id)
    try:
        words = forms.read_caption(sent)
    except BadForm as bad:
        page = pages.picture_page(session, here, photo_id, "caption", bad.state)
        return render(request, "surfaces/picture.html", page, status=422)
    set_caption(session, photo_id, words)
    return go_to(page.href, say="Saved.")


@router.post("/{photo_id}/place")
def place(request: Request, session: Writing, here: ThisBuild, sent: Sending, photo_id: int) -> Response:
    page = pages.picture_page(session, here, photo_id)
    try:
        form = _place(session, here, sent, required="Choose where the picture belongs.")
    except BadForm as bad:
        page = pages.picture_page(session, here, photo_id, "place", bad.state)
        return render(request, "surfaces/picture.html", page, status=422)
    actions.place_picture(session, here.build.id, photo_id, form.surface_id, form.item_id, form.slot_id)
    return go_to(page.href, say="The picture has its place.")


@router.post("/{photo_id}/not-that")
def not_that(session: Writing, here: ThisBuild, sent: Sending, photo_id: int) -> Response:
    """The picture does not show what was owed: the slot is owed again."""
    slot_id = int(sent.text("slot")) if sent.text("slot").isdecimal() else 0
    slot = store.get_slot(session, here.build.id, slot_id)
    actions.empty_slot(session, slot.id)
    return go_to(f"{here.base}/pictures/{photo_id}", say=f"Picture {slot.number} is owed again.")
