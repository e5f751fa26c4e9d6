"""What routes ask for: a session to read or to write with, the day, the sent form."""

from collections.abc import AsyncIterator, Iterator
from contextlib import ExitStack
from datetime import date, datetime, timedelta
from typing import Annotated

from fastapi import Depends, Request
from sqlmodel import Session
from starlette.exceptions import HTTPException

from webapp.core import arriving, clock, once, rendering
from webapp.core.database import Database
from webapp.core.forms import Submitted, Upload
from webapp.core.once import Seen
from webapp.core.settings import Settings

RECORDED = "studbay-recorded"
"""header: the local time on the phone when something was recorded there"""
SEEN = "studbay-seen"
"""header: the last change that the page showed"""
LONGEST_UNSENT = timedelta(days=90)


def get_database(request: Request) -> Database:
    database: Database = request.app.state.database
    return database


async def get_settings(request: Request) -> Settings:
    settings: Settings = request.app.state.settings
    return settings


async def reading(request: Request) -> AsyncIterator[Session]:
    """Opens no connection before the first question, so it needs no thread of its own to wait in."""
    with get_database(request).reading() as session:
        yield session


def writing(request: Request) -> Iterator[Session]:
    """A session that commits. A form without an id of its own is saved once by the id its sending brings along."""
    sent_id = request.headers.get(once.SENT, "")[: once.LONGEST_ID]
    with get_database(request).writing() as session:
        if sent_id:
            once.refuse_second(session, sent_id)
        yield session
        if sent_id and not rendering.drawn_again(request):
            once.remember_sent(session, sent_id, rendering.own_path(request.headers.get("referer", "")))


async def day_meant(request: Request, today: Annotated[date, Depends(clock.today)]) -> date:
    """The day it is here; for what a phone recorded without signal, the day it was there then."""
    return recorded_day(request.headers.get(RECORDED, ""), today) if request.method == "POST" else today


async def moment_meant(request: Request, now: Annotated[datetime, Depends(clock.local_now)]) -> datetime:
    """The moment it is here; for what a phone recorded without signal, the moment it was there then."""
    said = request.headers.get(RECORDED, "") if request.method == "POST" else ""
    if not said or recorded_day(said, now.date()).isoformat() != said[:10]:
        return now
    try:
        return min(datetime.fromisoformat(said).replace(tzinfo=now.tzinfo), now)
    except ValueError:
        return now


def recorded_day(said: str, today: date) -> date:
    """The day a phone says ("2026-05-16T17:40"); today for what is no day, lies ahead or too far back."""
    try:
        day = date.fromisoformat(said[:10])
    except ValueError:
        return today
    return day if today - LONGEST_UNSENT <= day <= today else today


async def seen(request: Request) -> Seen | None:
    """What the phone knew when something was recorded; None for what was not sent by the outbox."""
    try:
        at = datetime.fromisoformat(request.headers.get(SEEN, ""))
        recorded = datetime.fromisoformat(request.headers.get(RECORDED, ""))
    except ValueError:
        return None
    return Seen(clock.in_utc(at), recorded)


async def submitted(request: Request) -> AsyncIterator[Submitted]:
    """The sent form. Files are spooled to disk, or had arrived before; each is looked at by who keeps it."""
    folder = request.app.state.settings.arriving
    try:
        async with request.form(max_files=60, max_fields=4000, max_part_size=2 * 1024 * 1024) as data:
            items: list[tuple[str, str | Upload]] = list(data.multi_items())
            with ExitStack() as opened:
                yield Submitted(arriving.claim(folder, items, opened))
            if not rendering.drawn_again(request):
                arriving.let_go(folder, items)
    except HTTPException as broken:
        raise HTTPException(400, "The form did not arrive whole. Go back, what you typed is still there.") from broken
    except arriving.NotThere as gone:
        raise HTTPException(412, "A file of this form has not arrived. Send it again.") from gone


# With the default scope a failing commit would still answer 200; see DEVELOPERS.md, laws.
Reading = Annotated[Session, Depends(reading, scope="function")]
Writing = Annotated[Session, Depends(writing, scope="function")]
Sending = Annotated[Submitted, Depends(submitted)]
Today = Annotated[date, Depends(day_meant)]
Moment = Annotated[datetime, Depends(moment_meant)]
"""the moment on the site's own clock: only for what is asked of the hour, the day is `Today`"""
Known = Annotated[Seen | None, Depends(seen)]
Config = Annotated[Settings, Depends(get_settings)]
