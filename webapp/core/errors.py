"""What a refusal, a missing page and a fault look like: always a sentence and a way on, as page or as fragment."""

import logging
from dataclasses import dataclass
from urllib.parse import quote

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.responses import RedirectResponse, Response

from webapp.core import rendering
from webapp.core.once import AnsweredBefore
from webapp.core.sheets import Sheet
from webapp.values.errors import BadInput, NotFound, RuleBroken
from webapp.values.verdict import Reason, Way

log = logging.getLogger("studbay")


class SignInNeeded(Exception):
    """Nobody is signed in; the page asked for comes back after signing in."""


@dataclass(frozen=True, slots=True)
class ErrorPage:
    sheet: Sheet
    heading: str
    sentence: str
    reasons: tuple[Reason, ...] = ()
    ways_on: tuple[Way, ...] = ()


def _back(request: Request) -> Way:
    path = rendering.own_path(request.headers.get("referer", ""))
    return Way("Back to where you were", path) if path != "/" else Way("To today", "/")


def _answer(request: Request, name: str, page: ErrorPage, status: int) -> Response:
    return rendering.render(request, f"_errors/{name}.html", page, blocks=("main",), status=status)


def _page(request: Request, heading: str, sentence: str, name: str = "", **more: object) -> ErrorPage:
    """`name` stands in the title block, where the heading is too long for it."""
    sheet = Sheet("0", name or heading, heading, look=rendering.look(request), here=request.url.path)
    return ErrorPage(sheet, heading, sentence, **more)  # type: ignore[arg-type]


def refused(request: Request, error: Exception) -> Response:
    assert isinstance(error, RuleBroken)  # noqa: S101 (registered for this type only)
    page = _page(
        request,
        error.heading,
        "Nothing was changed.",
        "Not changed",
        reasons=error.verdict.reasons,
        ways_on=error.ways_on or (_back(request),),
    )
    return _answer(request, "refused", page, 409)


def missing(request: Request, error: Exception) -> Response:
    sentence = error.sentence if isinstance(error, NotFound) else "There is no page at this address."
    ways_on = tuple(dict.fromkeys((_back(request), Way("To today", "/"))))
    return _answer(request, "not_found", _page(request, "Not here", sentence, ways_on=ways_on), 404)


def bad_input(request: Request, error: Exception) -> Response:
    assert isinstance(error, BadInput)  # noqa: S101 (registered for this type only)
    return _answer(request, "bad_form", _page(request, "Not saved", error.sentence, ways_on=(_back(request),)), 422)


def http_error(request: Request, error: Exception) -> Response:
    assert isinstance(error, HTTPException)  # noqa: S101 (registered for this type only)
    if error.status_code == 404:
        return missing(request, error)
    page = _page(request, "This did not work", str(error.detail), ways_on=(_back(request),))
    return _answer(request, "bad_form", page, error.status_code)


def broken(request: Request, error: Exception) -> Response:
    log.error("%s %s failed", request.method, request.url.path, exc_info=error)
    sentence = "Something went wrong here, and nothing was saved. What you typed is still on the page before."
    return _answer(request, "broken", _page(request, "Our mistake", sentence, ways_on=(_back(request),)), 500)


def answered_before(_request: Request, error: Exception) -> Response:
    assert isinstance(error, AnsweredBefore)  # noqa: S101 (registered for this type only)
    return rendering.go_to(error.path, say="This was saved before; it is not saved twice.")


def sign_in_needed(request: Request, _error: Exception) -> Response:
    """Pages go to the sign-in and come back; scripts get a plain 401, so that what they hold is kept, not dropped."""
    if request.headers.get("hx-request") == "true":
        return Response(status_code=401, headers={"HX-Redirect": "/sign-in"})
    if request.method != "GET" or "text/html" not in request.headers.get("accept", "text/html"):
        return Response("Sign in again; nothing is lost.", status_code=401, media_type="text/plain")
    address = request.url.path + (f"?{request.url.query}" if request.url.query else "")
    return RedirectResponse(f"/sign-in?next={quote(address, safe='/')}", status_code=303)


def register(app: FastAPI) -> None:
    app.add_exception_handler(RuleBroken, refused)
    app.add_exception_handler(NotFound, missing)
    # Forms are read by ourselves, so this can only be a word in the address where a number belongs.
    app.add_exception_handler(RequestValidationError, missing)
    app.add_exception_handler(BadInput, bad_input)
    app.add_exception_handler(AnsweredBefore, answered_before)
    app.add_exception_handler(SignInNeeded, sign_in_needed)
    app.add_exception_handler(HTTPException, http_error)
    app.add_exception_handler(Exception, broken)
