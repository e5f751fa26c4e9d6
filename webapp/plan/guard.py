"""Which build is meant: resolves the name in the address and knows how to head its sheets; and sheets of no build."""

from typing import Annotated

from fastapi import Depends, Request

from webapp.core import rendering
from webapp.core.dependencies import Reading, Today, get_database
from webapp.plan import store
from webapp.plan.pages.place import Here, Outside
from webapp.values.dates import show_moment

__all__ = ["Here", "NoBuild", "Outside", "ThisBuild", "outside", "this_build"]


def outside(request: Request, today: Today) -> Outside:
    changed = get_database(request).changed_at
    return Outside(
        today=today,
        look=rendering.look(request),
        said=rendering.said(request),
        last_change=show_moment(changed.astimezone()),
        changed=changed.isoformat(),
        path=request.url.path,
    )


def this_build(request: Request, session: Reading, today: Today, build: str) -> Here:
    found = store.get_build(session, build)
    request.state.own_words = found.words  # an error page says them too
    changed = get_database(request).changed_at
    return Here(
        build=found,
        today=today,
        look=rendering.look(request),
        said=rendering.said(request),
        last_change=show_moment(changed.astimezone()),
        changed=changed.isoformat(),
        path=request.url.path,
    )


NoBuild = Annotated[Outside, Depends(outside)]
ThisBuild = Annotated[Here, Depends(this_build)]
