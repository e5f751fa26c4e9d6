"""Served over plain http beside https: the own authority's certificate, and how to trust it. Nothing else."""

from fastapi import APIRouter, Request
from starlette.responses import RedirectResponse, Response

from webapp.core import rendering
from webapp.core.sheets import Sheet
from webapp.phone import pages

router = APIRouter()


@router.get("/")
def trust(request: Request) -> Response:
    sheet = Sheet("G6", "Phone", "Trust this address", look=rendering.look(request), here="/")
    page = pages.trust_page(sheet, request.app.state.reach, request.headers.get("user-agent", ""))
    return rendering.render(request, "phone/trust.html", page)


@router.get("/studbay-authority.crt")
def authority(request: Request) -> Response:
    """DER, as phones take it (RFC 5280; media type of RFC 2585)."""
    headers = {"Content-Disposition": 'attachment; filename="studbay-authority.crt"', "Cache-Control": "no-store"}
    return Response(request.app.state.authority, media_type="application/x-x509-ca-cert", headers=headers)


@router.get("/{path:path}")
def elsewhere(request: Request, path: str) -> Response:
    """Anything else is at the secure address."""
    host = request.url.hostname or ""
    port = request.app.state.secure_port
    shown = f"[{host}]" if ":" in host else host
    return RedirectResponse(f"https://{shown}:{port}/{path}", status_code=307)
