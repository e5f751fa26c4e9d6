"""G8, what is not sent yet; the list of what a phone keeps; the ways in from the home screen."""

from dataclasses import asdict

from fastapi import APIRouter, Request
from starlette.responses import JSONResponse, PlainTextResponse, RedirectResponse, Response

from webapp.accounts.guard import OutsideBuilds
from webapp.core import arriving
from webapp.core.dependencies import Config, Reading
from webapp.core.rendering import render
from webapp.offline import pages
from webapp.offline.store import to_keep
from webapp.plan.guard import ThisBuild
from webapp.plan.store import list_builds
from webapp.readiness.store import site
from webapp.values.errors import BadInput

router = APIRouter()


@router.get("/not-sent")
def not_sent(request: Request, here: OutsideBuilds) -> Response:
    return render(request, "offline/not_sent.html", pages.NotSentPage(here.sheet("G8", "Not sent")))


@router.get("/builds/{build}/kept")
def kept(session: Reading, here: ThisBuild) -> Response:
    """What a phone keeps of this build, as paths; `changed` is the last change they show."""
    found = to_keep(session, site(session, here.build, here.today))
    said = {"build": here.build.name, "base": here.base, "changed": here.changed}
    return JSONResponse(said | asdict(found), headers={"Cache-Control": "no-store"})


@router.post("/arriving")
async def arrive(request: Request, config: Config) -> Response:
    """The bytes of one file, sent before the form they belong to; the answer says their SHA-256."""
    limit = max(config.picture_mb, config.paper_mb, config.voice_mb) * 1024 * 1024
    try:
        sha256 = await arriving.take_in(config.arriving, request.stream(), limit)
    except BadInput as bad:
        return PlainTextResponse(bad.sentence, status_code=413)
    return JSONResponse({"sha256": sha256})


def _newest(session: Reading, path: str) -> Response:
    builds = list_builds(session)
    return RedirectResponse(f"{builds[0].base}/{path}" if builds else "/builds", status_code=303)


@router.get("/log-the-day")
def log_the_day(session: Reading) -> Response:
    """From the home screen: the newest build's day."""
    return _newest(session, "workdays/log")


@router.get("/before-cover")
def before_cover(session: Reading) -> Response:
    """From the home screen: may it be covered, in the newest build."""
    return _newest(session, "before-cover")


@router.get("/share")
@router.post("/share")
def share(session: Reading) -> Response:
    """Pictures shared to Studbay are taken by the worker on the phone; without it they are chosen on their page."""
    return _newest(session, "pictures")
