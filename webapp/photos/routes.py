"""The bytes of pictures, for the owner only."""

from fastapi import APIRouter, Request
from starlette.responses import FileResponse, Response

from webapp.core.dependencies import Config, Reading
from webapp.core.rendering import render, render_text
from webapp.photos import actions, pages, store
from webapp.photos.rules.names import SIZES, derived_name, is_sha256, original_name
from webapp.photos.store import PhotoFacts
from webapp.values.errors import NotFound

router = APIRouter(prefix="/photos/{sha256}")
FOR_A_YEAR = "private, max-age=31536000, immutable"


def _photo(session: Reading, sha256: str) -> PhotoFacts:
    photo = store.find_photo(session, sha256) if is_sha256(sha256) else None
    if photo is None:
        raise NotFound("There is no such picture here.")
    return photo


@router.get("/original")
def original(session: Reading, config: Config, sha256: str) -> Response:
    """The untouched file, always as a download: its bytes are the owner's, its kind is only what its header said."""
    photo = _photo(session, sha256)
    path = config.photos / original_name(photo.sha256)
    if not path.is_file():
        raise NotFound("The original of this picture is not in the photos folder any more. A copy may still hold it.")
    return FileResponse(
        path,
        media_type=photo.media_type,
        filename=photo.original_name or photo.sha256,
        content_disposition_type="attachment",
        headers={"Cache-Control": "private, no-cache"},
    )


@router.get("/figure")
def figure(request: Request, session: Reading, sha256: str) -> Response:
    """The picture, or what stands in its place, for a page that waits for it."""
    return render(request, "photos/figure.html", pages.picture(_photo(session, sha256)))


@router.get("/{size}")
def derived(request: Request, session: Reading, config: Config, sha256: str, size: int) -> Response:
    """A derived copy (320 or 1280). Its name is its content, so it never changes."""
    etag = f'"{sha256[:16]}-{size}"'
    headers = {"ETag": etag, "Cache-Control": FOR_A_YEAR}
    photo = _photo(session, sha256)
    if size not in SIZES:
        raise NotFound("Pictures are kept in two sizes, 320 and 1280.")
    path = config.photos / derived_name(photo.sha256, size)
    if photo.made != "ready" or not actions.has_derived(config.photos, photo.sha256):
        return waiting(request)
    if request.headers.get("if-none-match") == etag:
        return Response(status_code=304, headers=headers)
    return FileResponse(path, media_type="image/webp", headers=headers)


def waiting(request: Request) -> Response:
    """A drawn frame for a copy that is not made yet; never kept by the browser."""
    frame = render_text(request, "photos/waiting.svg", None)
    return Response(frame, media_type="image/svg+xml", headers={"Cache-Control": "no-store"})
