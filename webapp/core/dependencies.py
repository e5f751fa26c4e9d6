"""What routes ask for: a session to read or to write with, the day, the sent form."""

from collections.abc import AsyncIterator, Iterator
from datetime import date, datetime
from typing import Annotated

from fastapi import Depends, Request
from sqlmodel import Session
from starlette.exceptions import HTTPException

from webapp.core import clock
from webapp.core.database import Database
from webapp.core.forms import Submitted
from webapp.core.settings import Settings


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
    with get_database(request).writing() as session:
        yield session


async def submitted(request: Request) -> AsyncIterator[Submitted]:
    """The sent form. Files are spooled to disk by the parser; each is looked at by who keeps it."""
    try:
        async with request.form(max_files=60, max_fields=4000, max_part_size=2 * 1024 * 1024) as data:
            yield Submitted(data.multi_items())
    except HTTPException as broken:
        raise HTTPException(400, "The form did not arrive whole. Go back, what you typed is still there.") from broken


# With the default scope a failing commit would still answer 200; see DEVELOPERS.md, laws.
Reading = Annotated[Session, Depends(reading, scope="function")]
Writing = Annotated[Session, Depends(writing, scope="function")]
Sending = Annotated[Submitted, Depends(submitted)]
Today = Annotated[date, Depends(clock.today)]
Moment = Annotated[datetime, Depends(clock.local_now)]
"""the moment on the site's own clock: only for what is asked of the hour, the day is `Today`"""
Config = Annotated[Settings, Depends(get_settings)]
