"""Who is asking: a dependency for routes. Without a sign-in the answer leads to the sign-in page.

Also the sheets that belong to the whole installation and not to one build: settings, copies, sign-in.
"""

from dataclasses import dataclass
from datetime import date
from typing import Annotated

from fastapi import BackgroundTasks, Depends, Request

from webapp.accounts import actions, store
from webapp.accounts.actions import hash_token
from webapp.accounts.store import Signed
from webapp.core import rendering
from webapp.core.dependencies import Reading, Today, get_database
from webapp.core.errors import SignInNeeded
from webapp.core.headers import SAFE
from webapp.core.sheets import Frame, Sheet, SheetLink
from webapp.values.dates import show_date, show_moment

COOKIE = "studbay"
SECURE_COOKIE = "__Host-studbay"


def cookie_name(request: Request) -> str:
    """Over https the cookie is bound to this host alone; a browser refuses that prefix over plain http."""
    return SECURE_COOKIE if request.url.scheme == "https" else COOKIE


def signed_in(request: Request, session: Reading, later: BackgroundTasks) -> Signed:
    token = request.cookies.get(cookie_name(request), "")
    signed = store.find_signed(session, hash_token(token)) if token else None
    if signed is None:
        raise SignInNeeded
    if request.method not in SAFE and actions.is_to_be_noted(signed):
        later.add_task(actions.note_seen, get_database(request), signed)
    return signed


Builder = Annotated[Signed, Depends(signed_in)]


@dataclass(frozen=True, slots=True)
class Outside:
    """What the title block says outside any build."""

    today: date
    look: str
    said: tuple[str, ...]
    last_change: str
    changed: str
    path: str
    frame: Frame

    def sheet(self, number: str, name: str, title: str = "") -> Sheet:
        """A sheet with the list of sheets of the build to go back to."""
        return Sheet(
            number=number,
            name=name,
            title=title or name,
            build=self.frame.build,
            base=self.frame.base,
            date=show_date(self.today),
            last_change=self.last_change,
            changed=self.changed,
            look=self.look,
            sheets=tuple(SheetLink(s.number, s.name, s.href, s.number == number) for s in self.frame.sheets),
            said=self.said,
            here=self.path,
        )


def outside(request: Request, session: Reading, today: Today, _signed: Builder) -> Outside:
    changed = get_database(request).changed_at
    return Outside(
        today=today,
        look=rendering.look(request),
        said=rendering.said(request),
        last_change=show_moment(changed.astimezone()),
        changed=changed.isoformat(),
        path=request.url.path,
        frame=request.app.state.frame(session),
    )


OutsideBuilds = Annotated[Outside, Depends(outside)]


def door_sheet(request: Request, number: str, name: str) -> Sheet:
    """A sheet for somebody who is not signed in: it says nothing of any build."""
    return Sheet(number, name, name, look=rendering.look(request), said=rendering.said(request), here="/sign-in")
