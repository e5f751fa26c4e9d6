"""Static files, each under an address that carries its hash, so that a phone fetches it once and never again."""

import gzip
import hashlib
import mimetypes
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.values.errors import NotFound

A_YEAR = "public, max-age=31536000, immutable"
TYPES = {
    ".js": "text/javascript",
    ".webmanifest": "application/manifest+json",
    ".woff2": "font/woff2",
    ".svg": "image/svg+xml",
}
PACKED = {".css", ".js", ".svg", ".webmanifest", ".txt", ".md", ".html"}


@dataclass(frozen=True, slots=True)
class Asset:
    body: bytes
    packed: bytes | None
    media_type: str
    version: str


class Assets:
    """All files of `static/`, read once into memory (together well under a megabyte)."""

    def __init__(self, folder: Path) -> None:
        self._all = {
            path.relative_to(folder).as_posix(): self._read(path)
            for path in sorted(folder.rglob("*"))
            if path.is_file()
        }

    @cached_property
    def version(self) -> str:
        """Changes with any of the files: a phone that shows pages of before can tell."""
        parts = (f"{name} {asset.version}" for name, asset in self._all.items())
        return hashlib.sha256("\n".join(parts).encode()).hexdigest()[:10]

    @staticmethod
    def _read(path: Path) -> Asset:
        body = path.read_bytes()
        guessed = TYPES.get(path.suffix) or mimetypes.guess_type(path.name)[0] or "application/octet-stream"
        packed = gzip.compress(body, 9, mtime=0) if path.suffix in PACKED else None
        return Asset(body, packed, guessed, hashlib.sha256(body).hexdigest()[:10])

    def url(self, name: str) -> str:
        """`/static/<name>?v=<hash>`; a name that is not there is a mistake of ours and raises KeyError."""
        return f"/static/{name}?v={self._all[name].version}"

    def get(self, name: str) -> Asset:
        try:
            return self._all[name]
        except KeyError:
            raise NotFound("There is no such file.") from None

    def names(self) -> tuple[str, ...]:
        return tuple(self._all)


router = APIRouter()


@router.get("/static/{name:path}", include_in_schema=False)
def static_file(request: Request, name: str) -> Response:
    assets: Assets = request.app.state.assets
    asset = assets.get(name)
    current = request.query_params.get("v") == asset.version
    headers = {
        "Cache-Control": A_YEAR if current else "no-cache",
        "Vary": "Accept-Encoding",
        "ETag": f'"{asset.version}"',
    }
    if request.headers.get("if-none-match") == headers["ETag"]:
        return Response(status_code=304, headers=headers)
    if asset.packed is not None and "gzip" in request.headers.get("accept-encoding", ""):
        return Response(asset.packed, media_type=asset.media_type, headers=headers | {"Content-Encoding": "gzip"})
    return Response(asset.body, media_type=asset.media_type, headers=headers)
