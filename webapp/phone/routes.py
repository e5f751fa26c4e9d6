"""G6: the phone."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.accounts.guard import OutsideBuilds
from webapp.core.headers import host_name
from webapp.core.rendering import render
from webapp.phone import pages

router = APIRouter()
LOCAL = frozenset({"localhost", "127.0.0.1", "::1"})
"""hosts that browsers take for secure over plain http too (W3C Secure Contexts, 3.1)"""


@router.get("/phone")
def phone(request: Request, here: OutsideBuilds) -> Response:
    local = host_name(request.headers.get("host", "")) in LOCAL
    secure = request.url.scheme == "https" or local
    page = pages.phone_page(here.sheet("G6", "Phone"), request.app.state.reach, secure, local)
    return render(request, "phone/phone.html", page)
