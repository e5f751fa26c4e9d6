"""What is hidden in a surface, and the pictures owed of it."""

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


def _read(
    session: Session, here: Here, sent: Submitted, surface: store.SurfaceFacts, item_id: int
) -> actions.ItemDraft:
    others = [
        one for one in store.list_items(session, here.build.id) if one.surface_id == surface.id and one.id != item_id
    ]
    openings = store.openings_of(session, here.build.id, surface.id)
    return forms.read_item(sent, here, surface, openings, others, store.list_lines(session, here.build.id))


@router.get("/items/new")
def new_item(
    request: Request,
    session: Reading,
    here: ThisBuild,
    code: str,
    x: str = "",
    y: str = "",
    line: str = "",
    label: str = "",
) -> Response:
    """Filled in with what was said on the drawing."""
    said = {"x": x, "y": y, "line": line, "label": label}
    return render(request, "surfaces/item.html", pages.item_page(session, here, code, said=said))


@router.post("/items")
def add_item(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str) -> Response:
    surface = store.get_surface(session, here.build.id, code)
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    try:
        draft = _read(session, here, sent, surface, 0)
    except BadForm as bad:
        return render(request, "surfaces/item.html", pages.item_page(session, here, code, 0, bad.state), status=422)
    made = actions.add_item(session, here.build.id, surface.id, draft)
    back = f"{here.base}/surfaces/{surface.code}#hidden"
    return go_to(saving.remember(back), say=f"“{made.label}” is on record.")


@router.get("/items/{item_id}")
def item(request: Request, session: Reading, here: ThisBuild, code: str, item_id: int) -> Response:
    return render(request, "surfaces/item.html", pages.item_page(session, here, code, item_id))


@router.post("/items/{item_id}")
def save_item(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str, item_id: int) -> Response:
    """Put right what was mistyped; a thing that was really moved goes by `…/changes/new`: it asks what it touches."""
    surface = store.get_surface(session, here.build.id, code)
    known = store.item_on(session, here.build.id, surface, item_id)
    try:
        sent = merged(sent, pages.item_page(session, here, code, item_id).form)
        draft = _read(session, here, sent, surface, item_id)
    except BadForm as bad:
        page = pages.item_page(session, here, code, item_id, bad.state)
        return render(request, "surfaces/item.html", page, status=422)
    actions.edit_item(session, here.build.id, known.id, draft)
    return go_to(f"{here.base}/surfaces/{surface.code}#hidden", say="Saved. What it said before stays readable.")


@router.get("/slots/new")
def new_slot(request: Request, session: Reading, here: ThisBuild, code: str) -> Response:
    return render(request, "surfaces/slot.html", pages.slot_page(session, here, code))


@router.post("/slots")
def add_slot(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str) -> Response:
    surface = store.get_surface(session, here.build.id, code)
    try:
        form = forms.read_slot(sent)
    except BadForm as bad:
        return render(request, "surfaces/slot.html", pages.slot_page(session, here, code, bad.state), status=422)
    made = actions.add_slot(session, here.build.id, surface.id, form.what, form.picture_set, form.strength)
    return go_to(f"{here.base}/surfaces/{surface.code}#owed", say=f"Picture {made.number} is owed now.")
