"""The packet of a visit: its ticks, the page to print, and the PDF where the library for it is installed."""

import re
from typing import Annotated

from fastapi import APIRouter, Depends, Query, Request
from starlette.responses import Response

from webapp import paths
from webapp.core.dependencies import Config, Reading
from webapp.core.pdf import make_pdf, pdf_library
from webapp.core.rendering import render, render_text
from webapp.inspections.files.packet import AT, blobs
from webapp.inspections.pages import packet as pages
from webapp.inspections.pages.packet import Chosen
from webapp.plan.guard import ThisBuild
from webapp.values.errors import NotFound

router = APIRouter(prefix="/visits/{visit_id}/packet")
PRINT = "inspections/packet_print.html"
Names = Annotated[list[str] | None, Query()]
Ids = Annotated[list[int] | None, Query()]
DRAWN = re.compile(r'<g class="dwg">')
"""where the pens of a drawing are put: the PDF library takes them from inside the drawing only"""


@router.get("")
def ticks(request: Request, session: Reading, here: ThisBuild, visit_id: int) -> Response:
    page = pages.packet_page(session, here, visit_id, has_pdf=pdf_library() is not None)
    return render(request, "inspections/packet.html", page)


def _chosen(part: Names = None, place: Ids = None, picture: Ids = None, paper: Names = None) -> Chosen:
    return Chosen(frozenset(part or ()), frozenset(place or ()), frozenset(picture or ()), frozenset(paper or ()))


Ticked = Annotated[Chosen, Depends(_chosen)]


@router.get("/print")
def to_print(request: Request, session: Reading, here: ThisBuild, visit_id: int, chosen: Ticked) -> Response:
    return render(request, PRINT, pages.packet(session, here, visit_id, chosen))


@router.get("/pdf")
def pdf(request: Request, session: Reading, here: ThisBuild, config: Config, visit_id: int, chosen: Ticked) -> Response:
    library = pdf_library()
    if library is None:
        raise NotFound("No PDF can be made here: install studbay[pdf]. Print the page with your browser instead.")
    page = pages.packet(session, here, visit_id, chosen, AT, "")
    pen = (paths.TEMPLATES / "inspections" / "pen.css").read_text(encoding="utf-8")
    style = (paths.STATIC / "css" / "packet.css").read_text(encoding="utf-8")
    html = DRAWN.sub(f'<style>{pen}</style><g class="dwg">', render_text(request, PRINT, page))
    body = make_pdf(library, html, [style], blobs(config.photos, page.shas))
    named = f'attachment; filename="packet-{visit_id}.pdf"'
    headers = {"Content-Disposition": named, "Cache-Control": "private, no-store"}
    return Response(body, media_type="application/pdf", headers=headers)
