"""The first page."""

from typing import Annotated

from fastapi import APIRouter, Query, Request
from starlette.responses import RedirectResponse, Response

from webapp.core.dependencies import Reading
from webapp.core.rendering import render_kept
from webapp.plan.guard import ThisBuild
from webapp.plan.store import list_builds
from webapp.today import pages
from webapp.today.rules.fits import Chance

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
    time: Minutes = 120,
    hands: str = "alone",
    weather: str = "dry",
    all: bool = False,  # noqa: A002 (the name in the address)
) -> Response:
    chance = Chance(time, helper=hands == "helper", dry=weather != "wet")
    template, blocks = "today/today.html", ("start",)
    return render_kept(
        request, session, here, template, lambda: pages.today_page(session, here, chance, whole=all), blocks
    )
