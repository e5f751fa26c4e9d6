"""Voice notes: all that was said, one note, its sound, and the notes of a thing for the page of that thing."""

from typing import Annotated, Any

from fastapi import APIRouter, Depends, Query, Request
from starlette.responses import FileResponse, Response

from webapp.core import clock, once
from webapp.core.dependencies import Config, Reading, Sending, Writing
from webapp.core.forms import BadForm
from webapp.core.rendering import go_to, render
from webapp.plan.guard import ThisBuild
from webapp.values.errors import NotFound
from webapp.voice import actions, forms, pages, store
from webapp.voice.files import find_sound
from webapp.voice.pages import Spots, by_key

router = APIRouter(prefix="/builds/{build}/said")
RECORD, NOTE = "voice/record.html", "voice/note.html"
SAFE = {
    "Content-Security-Policy": "sandbox; default-src 'none'; media-src 'self'",
    "Cache-Control": "private, max-age=31536000, immutable",
    # A part of a sound is asked for by its bytes: packed, the bytes would be others.
    "Content-Encoding": "identity",
}


def spots_of(request: Request, session: Reading, here: ThisBuild) -> Spots:
    """What notes can be about: named by packages above this one, put together at the top."""
    found: Spots = request.app.state.spots(session, here)
    return found


Named = Annotated[Any, Depends(spots_of)]


@router.get("")
def said(
    request: Request,
    session: Reading,
    here: ThisBuild,
    spots: Named,
    turn: Annotated[int, Query(ge=1, le=10_000)] = 1,
) -> Response:
    return render(request, "voice/said.html", pages.said_page(session, here, spots, turn))


@router.get("/new")
def new(request: Request, here: ThisBuild, spots: Named, config: Config, about: str = "") -> Response:
    return render(request, RECORD, pages.record_page(here, spots, config.voice_mb, about))


@router.post("")
def add(request: Request, session: Writing, here: ThisBuild, spots: Named, sent: Sending, config: Config) -> Response:
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    keep = actions.keeping_sound(config)
    try:
        draft = forms.read_note(sent, by_key(spots), keep, config.voice, clock.local_now())
    except BadForm as bad:
        page = pages.record_page(here, spots, config.voice_mb, form=bad.state)
        return render(request, RECORD, page, status=422)
    note_id = actions.add_note(session, here.build.id, draft.sound, draft.said_at, draft.words, draft.spot)
    at = f", at {draft.spot.label}" if draft.spot else ". Say later where it belongs"
    return go_to(saving.remember(f"{here.base}/said/{note_id}"), say=f"Kept as sound{at}.")


@router.get("/of/{kind}/{name}")
def of(request: Request, session: Reading, here: ThisBuild, spots: Named, kind: str, name: str) -> Response:
    return render(request, "voice/of.html", pages.of_page(session, here, spots, f"{kind}/{name}"), ("of",))


@router.get("/{note_id}")
def note(request: Request, session: Reading, here: ThisBuild, spots: Named, note_id: int) -> Response:
    return render(request, NOTE, pages.note_page(session, here, spots, note_id))


@router.get("/{note_id}/sound")
def sound(session: Reading, here: ThisBuild, config: Config, note_id: int) -> Response:
    """The sound as it came, whole or the part that a player asks for (RFC 9110, 14.2)."""
    found = store.get_note(session, here.build.id, note_id)
    path = find_sound(config.voice, found.sha256)
    if path is None:
        raise NotFound("The sound of this note is not in the voice folder. A copy may still hold it.")
    headers = SAFE | {"ETag": f'"{found.sha256[:32]}"'}
    return FileResponse(path, media_type=found.media_type, headers=headers)


@router.post("/{note_id}/words")
def words(request: Request, session: Writing, here: ThisBuild, spots: Named, sent: Sending, note_id: int) -> Response:
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    try:
        text = forms.read_words(sent)
    except BadForm as bad:
        return render(request, NOTE, pages.note_page(session, here, spots, note_id, "words", bad.state), status=422)
    actions.write_down(session, here.build.id, note_id, text)
    onward = f"{here.base}/said" if sent.text("on_to") == "all" else f"{here.base}/said/{note_id}"
    return go_to(saving.remember(onward), say="Written down. The sound stays.")


@router.post("/{note_id}/place")
def place(request: Request, session: Writing, here: ThisBuild, spots: Named, sent: Sending, note_id: int) -> Response:
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    was = store.get_note(session, here.build.id, note_id)
    try:
        spot = forms.read_spot(sent, by_key(spots))
    except BadForm as bad:
        return render(request, NOTE, pages.note_page(session, here, spots, note_id, "place", bad.state), status=422)
    actions.place_note(session, here.build.id, note_id, spot, pages.place_words(spots, was))
    say = f"It belongs to {spot.label}." if spot else "It belongs nowhere yet."
    return go_to(saving.remember(f"{here.base}/said/{note_id}"), say=say)
