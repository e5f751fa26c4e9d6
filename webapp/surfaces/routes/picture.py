"""One picture: when it was taken, what is seen, where it belongs, and what it shows besides."""

import re

from fastapi import APIRouter, Request
from sqlmodel import Session
from starlette.responses import Response

from webapp.core.dependencies import Reading, Sending, Writing
from webapp.core.forms import BadForm, Submitted
from webapp.core.rendering import go_to, render
from webapp.photos.actions import set_caption, set_taken
from webapp.photos.store import get_photo
from webapp.plan.guard import Here, ThisBuild
from webapp.surfaces import actions, forms, pages, store
from webapp.values.errors import NotFound

router = APIRouter(prefix="/pictures")
TEMPLATE = "surfaces/picture.html"


def _onward(here: Here, sent: Submitted, otherwise: str) -> str:
    """Back to shooting where the form stood there; nowhere outside this build."""
    shoot = r"/(surfaces/[A-Za-z0-9]{1,8}/shoot|pictures/many\?surface=[A-Za-z0-9]{0,8}&came=[0-9.]{1,1000})"
    return sent.text("on_to") if re.fullmatch(re.escape(here.base) + shoot, sent.text("on_to")) else otherwise


@router.get("/{photo_id}")
def one_picture(request: Request, session: Reading, here: ThisBuild, photo_id: int) -> Response:
    return render(request, TEMPLATE, pages.picture_page(session, here, photo_id))


@router.post("/{photo_id}/date")
def date(request: Request, session: Writing, here: ThisBuild, sent: Sending, photo_id: int) -> Response:
    page = pages.picture_page(session, here, photo_id)
    try:
        taken = forms.read_taken(sent, here, get_photo(session, photo_id).received_at.astimezone().date())
    except BadForm as bad:
        page = pages.picture_page(session, here, photo_id, "date", bad.state)
        return render(request, TEMPLATE, page, status=422)
    set_taken(session, photo_id, taken)
    return go_to(page.href, say="The date is on record." if taken else "The date is unknown now.")


@router.post("/{photo_id}/caption")
def caption(request: Request, session: Writing, here: ThisBuild, sent: Sending, photo_id: int) -> Response:
    page = pages.picture_page(session, here, photo_id)
    try:
        words = forms.read_caption(sent)
    except BadForm as bad:
        page = pages.picture_page(session, here, photo_id, "caption", bad.state)
        return render(request, TEMPLATE, page, status=422)
    set_caption(session, photo_id, words)
    return go_to(page.href, say="Saved.")


@router.post("/{photo_id}/place")
def place(request: Request, session: Writing, here: ThisBuild, sent: Sending, photo_id: int) -> Response:
    page = pages.picture_page(session, here, photo_id)
    build_id = here.build.id
    surfaces, items = store.list_surfaces(session, build_id), store.list_items(session, build_id)
    try:
        slots = store.list_slots(session, build_id)
        form = forms.read_place(sent, surfaces, items, slots, required="Choose where the picture belongs.")
    except BadForm as bad:
        page = pages.picture_page(session, here, photo_id, "place", bad.state)
        return render(request, TEMPLATE, page, status=422)
    actions.place_picture(session, here.build.id, photo_id, form.surface_id, form.item_id, form.slot_id)
    return go_to(page.href, say="The picture has its place.")


@router.post("/{photo_id}/not-there")
def not_there(session: Writing, here: ThisBuild, sent: Sending, photo_id: int) -> Response:
    """The picture is not of that surface: it stays in the build, and where it was said to be stays readable."""
    place = int(sent.text("place")) if sent.text("place").isdecimal() else 0
    name = actions.take_out(session, here.build.id, photo_id, place)
    return go_to(f"{here.base}/pictures/{photo_id}", say=f"It is no picture of {name} any more.")


@router.post("/{photo_id}/not-that")
def not_that(session: Writing, here: ThisBuild, sent: Sending, photo_id: int) -> Response:
    """The picture does not show what was owed: the slot is owed again."""
    slot = store.get_slot(session, here.build.id, int(sent.text("slot")) if sent.text("slot").isdecimal() else 0)
    if slot.photo_id != photo_id:
        raise NotFound("This picture does not fill that one.")
    actions.empty_slot(session, slot.id)
    return go_to(f"{here.base}/pictures/{photo_id}", say=f"Picture {slot.number} is owed again.")


@router.post("/{photo_id}/said")
def said(request: Request, session: Writing, here: ThisBuild, sent: Sending, photo_id: int) -> Response:
    """The day by the builder's own word, with one press or typed: it is kept as said by them."""
    page = pages.picture_page(session, here, photo_id)
    try:
        taken = forms.read_said(sent, here, get_photo(session, photo_id).received_at.astimezone().date())
    except BadForm as bad:
        page = pages.picture_page(session, here, photo_id, "date", bad.state)
        return render(request, TEMPLATE, page, status=422)
    set_taken(session, photo_id, taken)
    return go_to(_onward(here, sent, page.href), say="The day is on record, by your word.")


@router.post("/{photo_id}/shows")
def shows(request: Request, session: Writing, here: ThisBuild, sent: Sending, photo_id: int) -> Response:
    """One picture fills several owed ones, and belongs to several things of the same surface."""
    page, build_id = pages.picture_page(session, here, photo_id), here.build.id
    slots, items = store.list_slots(session, build_id), store.list_items(session, build_id)
    try:
        chosen = forms.read_shows(sent, slots, items)
    except BadForm as bad:
        page = pages.picture_page(session, here, photo_id, "shows", bad.state)
        return render(request, TEMPLATE, page, status=422)
    for surface_id, item_id, slot_id in chosen:
        actions.place_picture(session, build_id, photo_id, surface_id, item_id, slot_id)
    return go_to(_onward(here, sent, page.href), say="On record: it shows these too.")


@router.post("/{photo_id}/pin")
def pin(request: Request, session: Writing, here: ThisBuild, sent: Sending, photo_id: int) -> Response:
    """Pinned where it was typed or tapped, or where a thing it is of is; with `off` the pin is taken off."""
    page = pages.picture_page(session, here, photo_id)
    surface = store.get_surface(session, here.build.id, sent.text("surface"))
    try:
        at = None if sent.text("off") else _pinned_at(session, here, sent, surface)
    except BadForm as bad:
        page = pages.picture_page(session, here, photo_id, "pin", bad.state)
        return render(request, TEMPLATE, page, status=422)
    actions.pin_picture(session, here.build.id, photo_id, surface.id, at)
    said = f"Pinned to the drawing of {surface.name}." if at else "The pin is off."
    return go_to(f"{page.href}#pin", say=said)


def _pinned_at(session: Session, here: Here, sent: Submitted, surface: store.SurfaceFacts) -> tuple[int, int]:
    if not sent.text("item"):
        return forms.read_pin(sent, here, surface)
    item_id = int(sent.text("item")) if sent.text("item").isdecimal() else 0
    item = store.item_on(session, here.build.id, surface, item_id)
    if item.x_nm is None or item.y_nm is None:
        raise NotFound("That thing is not measured yet.")
    return item.x_nm, item.y_nm
