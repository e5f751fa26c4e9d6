"""Shooting straight from the list of a surface: the camera stays on it, one owed picture after the other."""

from typing import Annotated

from fastapi import APIRouter, Query, Request
from sqlmodel import Session
from starlette.responses import Response

from webapp.core import clock
from webapp.core.dependencies import Config, Reading, Sending, Writing
from webapp.core.rendering import go_to, render
from webapp.plan.guard import ThisBuild
from webapp.surfaces import actions, pages, store
from webapp.surfaces.guard import stay_at
from webapp.values.errors import NotFound

router = APIRouter(prefix="/surfaces/{code}/shoot")
TEMPLATE = "surfaces/shoot.html"
Number = Annotated[int, Query(ge=0, le=2**53)]


@router.get("")
def shoot(
    request: Request,
    session: Reading,
    here: ThisBuild,
    config: Config,
    code: str,
    slot: Number = 0,
    after: Number = 0,
) -> Response:
    return render(request, TEMPLATE, pages.shoot_page(session, here, code, config.picture_mb, slot, after))


@router.post("")
def take(request: Request, session: Writing, here: ThisBuild, config: Config, sent: Sending, code: str) -> Response:
    """One picture for one owed; whatever else is wrong, it is kept. Then the next one owed of the same surface."""
    surface, slot = store.get_surface(session, here.build.id, code), _slot(session, here.build.id, sent.text("slot"))
    if slot.surface_id != surface.id:
        raise NotFound("That picture is owed of another surface.")
    files = [(upload.file, upload.filename or "") for upload in sent.files("pictures")][:1]
    taken = actions.take_in(session, here.build.id, config.photos, files, config.picture_mb, clock.now())
    if not taken.kept:
        said = pages.said_of(taken, "", files)
        page = pages.shoot_page(session, here, code, config.picture_mb, slot.id, refused=said)
        return render(request, TEMPLATE, page, status=422)
    actions.place_picture(session, here.build.id, taken.kept[0].photo_id, surface.id, None, slot.id)
    answer = f"{here.base}/surfaces/{surface.code}/shoot?after={slot.id}"
    return stay_at(go_to(answer, say=f"Picture {slot.number} of {surface.code} is kept."), surface.id)


def _slot(session: Session, build_id: int, text: str) -> store.SlotFacts:
    return store.get_slot(session, build_id, int(text) if text.isdecimal() else 0)
