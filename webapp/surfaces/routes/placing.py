"""What is done on the drawing itself: something is placed, or moved to another spot."""

from urllib.parse import urlencode

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.core import once
from webapp.core.dependencies import Sending, Writing
from webapp.core.forms import BadForm
from webapp.core.rendering import go_to, render
from webapp.plan.guard import ThisBuild
from webapp.surfaces import actions, forms, pages, store

router = APIRouter(prefix="/surfaces/{code}/drawing")
TEMPLATE = "surfaces/drawing.html"


@router.post("/place")
def place(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str) -> Response:
    """Something new; the drawing comes again with it marked."""
    surface = store.get_surface(session, here.build.id, code)
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    around = store.around(session, here.build.id, surface.id)
    seen = pages.Seen.of(sent.text("mirror"), sent.text("replaced"), sent.text("other"))
    try:
        draft = forms.read_placed(sent, here, surface, *around, store.list_lines(session, here.build.id))
    except BadForm as bad:
        page = pages.drawing_page(session, here, code, seen, place=bad.state)
        return render(request, TEMPLATE, page, status=422)
    made = actions.add_item(session, here.build.id, surface.id, draft)
    back = f"{here.base}/surfaces/{surface.code}/drawing?{seen.query(new=made.row_id)}"
    return go_to(saving.remember(back), say=pages.placed_words(session, here, surface, made.row_id))


@router.post("/move")
def move(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str) -> Response:
    """Put right what was mistyped; with `moved` the way leads on to the change, which asks what the move touches."""
    surface = store.get_surface(session, here.build.id, code)
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    known = store.item_on(session, here.build.id, surface, forms.read_id(sent, "item"))
    seen = pages.Seen.of(sent.text("mirror"), sent.text("replaced"), sent.text("other"))
    try:
        draft = forms.read_spot(sent, here, surface, *store.around(session, here.build.id, surface.id), known)
    except BadForm as bad:
        page = pages.drawing_page(session, here, code, seen, move=bad.state)
        return render(request, TEMPLATE, page, status=422)
    if sent.text("moved"):
        spot = {"x": sent.text("x"), "y": sent.text("y"), "corner": draft.from_corner}
        where = {"item": known.id, "to": surface.code} | spot
        return go_to(f"{here.base}/changes/new?{urlencode(where)}")
    actions.edit_item(session, here.build.id, known.id, draft)
    say = f"“{draft.label}” is put right. What it said before stays readable."
    back = f"{here.base}/surfaces/{surface.code}/drawing?{seen.query(new=known.id)}"
    return go_to(saving.remember(back), say=say)
