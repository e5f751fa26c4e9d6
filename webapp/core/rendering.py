"""Templates: one template gives the whole page and the fragments htmx asks for.

A fragment is a block of the page's template. Macros are an environment global (`ui`), because what is imported at the
top of a child template does not exist when one of its blocks is rendered alone.
"""

import functools
import hashlib
import re
from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from fastapi import Request
from jinja2 import Environment, FileSystemLoader, StrictUndefined, Template
from sqlmodel import Session
from starlette.responses import HTMLResponse, RedirectResponse, Response

from webapp.core import once, packing
from webapp.core.assets import Assets
from webapp.core.database import remembered
from webapp.core.filters import FILTERS
from webapp.values.own_words import own, spoken

LOOKS = ("", "light", "dark", "sun")
LOOK_COOKIE = "studbay-look"
SAID_COOKIE = "studbay-said"
LARGEST_KEPT = 64 * 1024
"""bytes of a drawn page as it is kept; with the number of things kept it bounds the memory they take"""
ONCE = re.compile(b"<once>")
"""where a form's own id is put (`ui.once`); what a builder types cannot say this, since it is escaped"""


def make_environment(templates: Path, assets: Assets) -> Environment:
    """The Jinja environment; an unknown name in a template is an error, not an empty string."""
    environment = Environment(
        loader=FileSystemLoader(templates),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
        cache_size=-1,
    )
    environment.filters.update(FILTERS)
    environment.globals["own"] = own
    environment.globals["static"] = assets.url
    environment.globals["version"] = assets.version
    environment.globals["ui"] = environment.get_template("_macros/ui.html").module
    return environment


def wants_fragment(request: Request) -> bool:
    """Whether htmx asks for a part; history and full-page requests get the whole page."""
    headers = request.headers
    return (
        headers.get("hx-request") == "true"
        and headers.get("hx-request-type", "partial") != "full"
        and headers.get("hx-history-restore-request") != "true"
    )


def _blocks(template: Template, names: Sequence[str], page: Any) -> str:
    context = template.new_context({"page": page})
    return "".join(part for name in names for part in template.blocks[name](context))


@functools.cache
def _template(environment: Environment, name: str) -> Template:
    return environment.get_template(name)


def render_text(request: Request, name: str, page: Any, blocks: Sequence[str] = ()) -> str:
    """The text of the page, general words said as the builder of this build says them."""
    template = _template(request.app.state.templates, name)
    whole = not (blocks and wants_fragment(request))
    text = template.render(page=page) if whole else _blocks(template, blocks, page)
    return spoken(text, getattr(request.state, "own_words", ()))


def render(
    request: Request,
    name: str,
    page: Any,
    blocks: Sequence[str] = (),
    status: int = 200,
    headers: dict[str, str] | None = None,
) -> HTMLResponse:
    """The page, or only its `blocks` when htmx asks for a part."""
    request.state.drawn_again = status >= 400
    body = _with_ids(render_text(request, name, page, blocks).encode())
    answer = HTMLResponse(body, status, {"Vary": "HX-Request", "Cache-Control": "no-cache"})
    answer.headers.update(headers or {})
    if request.cookies.get(SAID_COOKIE) and status < 400 and not wants_fragment(request):
        answer.delete_cookie(SAID_COOKIE, httponly=True, samesite="lax")
    return answer


def drawn_again(request: Request) -> bool:
    """Whether the answer was the form again, with what is wrong: nothing is saved by it."""
    return getattr(request.state, "drawn_again", False)


def own_path(address: str) -> str:
    """The path of a page of ours; "/" for anything else. Two slashes at the start would be read as another server."""
    return "/" + address.partition("://")[2].partition("/")[2].lstrip("/\\")


def _with_ids(body: bytes) -> bytes:
    """Each form that is to be saved once gets an id of its own, new with each answer."""
    return ONCE.sub(lambda _: once.new_id().encode(), body)


@dataclass(frozen=True, slots=True)
class Drawn:
    """A page or a part of it, compressed: in pieces, between which each answer has ids of its own. `etag`: what tells
    it from an earlier one; nothing does where there are ids."""

    pieces: tuple[bytes, ...]
    etag: str

    @property
    def size(self) -> int:
        return sum(len(piece) for piece in self.pieces)


def _drawn(text: str) -> Drawn:
    pieces = packing.pack(ONCE.split(text.encode()))
    return Drawn(pieces, "" if pieces[1:] else f'W/"{hashlib.sha256(pieces[0]).hexdigest()[:32]}"')


def render_kept(
    request: Request,
    session: Session,
    place: Hashable,
    name: str,
    make: Callable[[], Any],
    blocks: Sequence[str] = (),
) -> Response:
    """As `render`, but drawn once and kept until the next commit; who has it already is told so (304).

    For pages that rest on the record, the address and `place` alone: `place` says the build, the day, the look, the
    last change. Not for what is shown from outside the record. Forms saved once get new ids with each answer.
    """
    if request.cookies.get(SAID_COOKIE):  # a sentence said once is not kept
        return render(request, name, make(), blocks)
    shown = tuple(blocks) if wants_fragment(request) else ()
    key = ("page", name, place, request.url.path, request.url.query, shown)
    drawn = remembered(
        session,
        key,
        lambda: _drawn(render_text(request, name, make(), blocks)),
        worth=lambda drawn: drawn.size <= LARGEST_KEPT,
        each_commit=True,  # what it shows was partly read before
    )
    headers = {"Vary": "HX-Request, Accept-Encoding", "Cache-Control": "private, no-cache"}
    ids = [once.new_id().encode() for _ in drawn.pieces[1:]]
    if drawn.etag:
        headers["ETag"] = drawn.etag
        if drawn.etag in request.headers.get("if-none-match", ""):
            return Response(status_code=304, headers=headers)
    if "gzip" not in request.headers.get("accept-encoding", ""):
        return HTMLResponse(packing.plain(drawn.pieces, ids), headers=headers)
    return HTMLResponse(packing.join(drawn.pieces, ids), headers={**headers, "Content-Encoding": "gzip"})


def go_to(path: str, say: str = "") -> Response:
    """A redirect after something was saved; `say` is shown once at the top of the next page."""
    answer = RedirectResponse(path, status_code=303)
    if say:
        answer.set_cookie(SAID_COOKIE, say.encode().hex(), max_age=60, httponly=True, samesite="lax")
    return answer


def said(request: Request) -> tuple[str, ...]:
    """The sentence put by `go_to`, if any. Shown as text, so whatever the cookie holds can do no harm."""
    try:
        text = bytes.fromhex(request.cookies.get(SAID_COOKIE, "")).decode()
    except ValueError:
        return ()
    return (text,) if text else ()


def look(request: Request) -> str:
    chosen = request.cookies.get(LOOK_COOKIE, "")
    return chosen if chosen in LOOKS else ""
