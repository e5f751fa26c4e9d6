"""Pencil notes and sketches: spots tapped on a picture, what they say, and what of the surface they become."""

from fastapi import APIRouter, Request
from sqlmodel import Session
from starlette.responses import Response

from webapp.core import once
from webapp.core.dependencies import Reading, Sending, Writing
from webapp.core.forms import BadForm, FieldError, FormState, Submitted
from webapp.core.rendering import go_to, render
from webapp.photos.store import get_photo
from webapp.plan.guard import Here, ThisBuild
from webapp.surfaces import actions, forms, pages, store
from webapp.surfaces.guard import LastSurface, stay_at
from webapp.values.words import plural

router = APIRouter(prefix="/pictures/{photo_id}/read")
TEMPLATE = "surfaces/read.html"


@router.get("")
def read(request: Request, session: Reading, here: ThisBuild, last: LastSurface, photo_id: int) -> Response:
    return render(request, TEMPLATE, pages.read_page(session, here, photo_id, last))


@router.post("")
def keep(request: Request, session: Writing, here: ThisBuild, sent: Sending, photo_id: int) -> Response:
    """Every spot is kept, with what it says; a press of the picture only gives the form back with one spot more."""
    page = pages.read_page(session, here, photo_id)
    saving = once.saving(session, sent) if not _pressed(sent) else None
    if saving and saving.before:
        return go_to(saving.before)
    photo = get_photo(session, photo_id)
    more = forms.tapped_again(sent, photo.width, photo.height)
    if more is not None or saving is None:
        state = more or FormState(sent.typed())
        return render(request, TEMPLATE, pages.read_page(session, here, photo_id, form=state))
    try:
        surface = forms.read_place_of_all(sent, store.list_surfaces(session, here.build.id))
        drafts = forms.read_points(sent, here, surface, *store.around(session, here.build.id, surface.id))
    except BadForm as bad:
        return render(request, TEMPLATE, pages.read_page(session, here, photo_id, form=bad.state), status=422)
    kept, made = actions.keep_points(session, here.build.id, photo_id, surface.id, drafts)
    say = f"{plural(kept, 'spot')} kept, {made} on {surface.name} now."
    return stay_at(go_to(saving.remember(page.action), say=say), surface.id)


def _pressed(sent: Submitted) -> bool:
    return any(name.endswith(".x") for name in sent.names())


@router.post("/{point_id}")
def settle(
    request: Request, session: Writing, here: ThisBuild, sent: Sending, photo_id: int, point_id: int
) -> Response:
    """What a kept spot is: where the tape says, or for now where the picture says; or it is taken off again."""
    page = pages.read_page(session, here, photo_id)
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    point = store.get_point(session, photo_id, point_id)
    if sent.text("do") == "off":
        actions.take_off(session, point_id, here.today)
        return go_to(saving.remember(page.action), say=f"Number {point.number} is off the picture.")
    try:
        say = _settle(session, here, sent, point)
    except BadForm as bad:
        shown = pages.read_page(session, here, photo_id, form=bad.state, point_id=point_id)
        return render(request, TEMPLATE, shown, status=422)
    return go_to(saving.remember(page.action), say=say)


def _settle(session: Session, here: Here, sent: Submitted, point: store.PointFacts) -> str:
    if point.item_id is not None or point.known:
        raise BadForm(FormState(sent.typed(), {"x": FieldError("This one is settled already.")}))
    surface = store.surface_by_id(session, here.build.id, point.surface_id)
    photo, points = get_photo(session, point.photo_id), store.list_points(session, point.photo_id)
    proposal = pages.proposal_of(photo, points, point, surface, here.build.unit)
    around = store.around(session, here.build.id, surface.id)
    draft = forms.read_settled(sent, here, surface, *around, point.what, proposal)
    actions.become(session, here.build.id, point.id, draft)
    from_picture = " From the picture: measure it before you rely on it." if draft.from_picture else ""
    return f"“{draft.label}” is on {surface.name}.{from_picture}"
