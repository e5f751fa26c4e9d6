"""What everyone may see: reachable without a sign-in, read only, no cookie set."""

import hashlib
import re

from fastapi import APIRouter, Request
from starlette.responses import FileResponse, Response

from webapp.audience import pages, store
from webapp.audience.actions import PUBLIC_FOLDER
from webapp.audience.pages import Frame
from webapp.core import rendering
from webapp.core.dependencies import Config, Reading
from webapp.values.errors import NotFound

router = APIRouter(prefix="/watch")
FIVE_MINUTES = "public, max-age=300"
FOR_A_YEAR = "public, max-age=31536000, immutable"
PICTURE = re.compile(r"([0-9a-f]{32})-(?:320|1280)\.webp")


def _frame(request: Request) -> Frame:
    return Frame(rendering.look(request), request.url.path, str(request.base_url).rstrip("/"))


def _fresh(request: Request, etag: str) -> bool:
    """Whether the reader has this already; a proxy that packs the answer may have made the tag a weak one."""
    known = request.headers.get("if-none-match", "").split(",")
    return etag in {each.strip().removeprefix("W/") for each in known}


def _show(request: Request, template: str, page: object, media_type: str = "text/html") -> Response:
    """The rendered page, kept by browsers for a short while. It differs by the look alone, which is in the cookie."""
    body = rendering.render_text(request, template, page)
    etag = f'"{hashlib.sha256(body.encode()).hexdigest()[:20]}"'
    headers = {"Cache-Control": FIVE_MINUTES, "ETag": etag, "Vary": "Cookie"}
    if _fresh(request, etag):
        return Response(status_code=304, headers=headers)
    return Response(body, media_type=media_type, headers=headers)


@router.get("")
def watch(request: Request, session: Reading) -> Response:
    return _show(request, "audience/watch.html", pages.watch_page(session, _frame(request)))


@router.get("/pictures/{name}")
def picture(request: Request, session: Reading, config: Config, name: str) -> Response:
    """Only what belongs to a published episode: a file that was left behind by a failed save is not shown."""
    named = PICTURE.fullmatch(name)
    path = config.photos / PUBLIC_FOLDER / name
    if named is None or not store.is_public(session, named[1]) or not path.is_file():
        raise NotFound("There is no such picture here.")
    headers = {"Cache-Control": FOR_A_YEAR, "ETag": f'"{name}"'}
    if _fresh(request, headers["ETag"]):
        return Response(status_code=304, headers=headers)
    return FileResponse(path, media_type="image/webp", headers=headers)


@router.get("/{slug}")
def build(request: Request, session: Reading, slug: str) -> Response:
    return _show(request, "audience/build.html", pages.build_page(session, _frame(request), slug))


@router.get("/{slug}/feed.xml")
def feed(request: Request, session: Reading, slug: str) -> Response:
    page = pages.feed_page(session, _frame(request), slug)
    return _show(request, "audience/feed.xml", page, "application/atom+xml")


@router.get("/{slug}/{number}")
def episode(request: Request, session: Reading, slug: str, number: int) -> Response:
    return _show(request, "audience/episode.html", pages.episode_page(session, _frame(request), slug, number))
