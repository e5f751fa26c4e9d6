"""The first page."""

from typing import Annotated

from fastapi import APIRouter, Query, Request
from starlette.responses import RedirectResponse, Response

from webapp.core.dependencies import Moment, Reading
from webapp.core.rendering import render_kept
from webapp.plan.guard import ThisBuild
from webapp.plan.store import list_builds
from webapp.today import pages
from webapp.today.rules.fits import Chance
from webapp.workdays.rules.alone import is_over
from webapp.workdays.store.alone import open_told

router = APIRouter()
Minutes = Annotated[int, Query(ge=0, le=24 * 60)]


@router.get("/")
def first(session: Reading) -> Response:
    """To the newest build's today, or to where the first build is named."""
    builds = list_builds(session)
    return RedirectResponse(f"{builds[0].base}/today" if builds else "/builds", status_code=303)


@router.get("/builds/{build}")
def build(here: ThisBuild) -> Response:
    return RedirectResponse(f"{here.base}/today", status_code=303)


@router.get("/builds/{build}/today")
def today(
    request: Request,
    session: Reading,
    here: ThisBuild,
    now: Moment,
    time: Minutes = 120,
    hands: str = "alone",
    weather: str = "dry",
    all: bool = False,  # noqa: A002 (the name in the address)
) -> Response:
    chance = Chance(time, helper=hands == "helper", dry=weather != "wet")
    template, blocks = "today/today.html", ("start",)
    told = open_told(session, here.build.id)
    over = told is not None and is_over(told, here.today, f"{now:%H:%M}")

    def page() -> pages.TodayPage:
        return pages.today_page(session, here, chance, whole=all, over=over, plain=not request.url.query)

    return render_kept(request, session, (here, over), template, page, blocks)
