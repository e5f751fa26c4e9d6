"""Several pictures at once: their clock shifted, said to be before or after insulation, placed on a surface."""

from typing import Annotated

from fastapi import APIRouter, Query, Request
from sqlmodel import Session
from starlette.responses import Response

from webapp.core import once
from webapp.core.dependencies import Reading, Sending, Writing
from webapp.core.forms import BadForm, Submitted
from webapp.core.rendering import go_to, render
from webapp.photos.actions import shift_taken, take_back
from webapp.plan.guard import Here, ThisBuild
from webapp.surfaces import actions, forms, pages, store
from webapp.surfaces.guard import stay_at
from webapp.values.errors import NotFound
from webapp.values.words import plural

router = APIRouter(prefix="/pictures/set")
TEMPLATE = "surfaces/set.html"
STAGES = ("before", "after", "general")
Number = Annotated[int, Query(ge=0, le=2**53)]


@router.get("")
def chosen(
    request: Request,
    session: Reading,
    here: ThisBuild,
    photo: Annotated[list[int] | None, Query()] = None,
    came: str = "",
    day: str = "",
    came_with: Number = 0,
    back: str = "",
) -> Response:
    asked = pages.SetAsked(tuple(photo or ()), came, day, came_with, back)
    return render(request, TEMPLATE, pages.set_page(session, here, pages.ids_asked(session, here, asked), back))


@router.post("")
def put_right(request: Request, session: Writing, here: ThisBuild, sent: Sending) -> Response:
    """What the pressed button says is done to those that are ticked."""
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    offered = pages.ids_asked(session, here, pages.SetAsked(came=sent.text("came")))
    try:
        ids = forms.read_ticked(sent, offered)
        onward, said, surface_id = _done(session, here, sent, ids)
    except BadForm as bad:
        return render(request, TEMPLATE, pages.set_page(session, here, offered, form=bad.state), status=422)
    answer = go_to(saving.remember(f"{here.base}/pictures/set?{onward}"), say=said)
    return stay_at(answer, surface_id) if surface_id else answer


def _done(session: Session, here: Here, sent: Submitted, ids: tuple[int, ...]) -> tuple[str, str, int]:
    """The pictures to come back to, what is said, and the surface that was chosen, if one was."""
    do, came = sent.text("do"), f"came={pages.in_address(ids)}"
    if do in STAGES:
        return came, pages.staged_words(actions.say_stage(session, here.build.id, ids, do), do), 0
    if do == "place":
        surface = forms.read_place_of_all(sent, store.list_surfaces(session, here.build.id))
        for photo_id in ids:
            actions.place_picture(session, here.build.id, photo_id, surface.id)
        return came, f"{plural(len(ids), 'picture')} placed on {surface.name}.", surface.id
    photos = pages.photos_of(session, ids)
    minutes = forms.read_shift(sent, here, photos, pages.first_day(session, here))
    before = {slot.id: slot for slot in store.list_slots(session, here.build.id)}
    done = shift_taken(session, ids, minutes)
    session.flush()
    said = pages.shifted_words(done, minutes, before, store.list_slots(session, here.build.id))
    return f"back={done.together}" if done.shifted else came, said, 0


@router.post("/back")
def back(session: Writing, here: ThisBuild, sent: Sending) -> Response:
    """A shift that was wrong: the times of before are there again."""
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    together = sent.text("back")
    ids = pages.ids_asked(session, here, pages.SetAsked(back=together)) if together else ()
    if not ids:
        raise NotFound("Nothing of this build was shifted under that name.")
    before = {slot.id: slot for slot in store.list_slots(session, here.build.id)}
    done, left = take_back(session, ids, together)
    session.flush()
    rest = f" {left} had another time said since and stayed." if left else ""
    said = pages.slots_words(before, store.list_slots(session, here.build.id))
    onward = f"{here.base}/pictures/set?came={pages.in_address(ids)}"
    return go_to(saving.remember(onward), say=f"{plural(done, 'picture')} as before.{rest}{said}")
