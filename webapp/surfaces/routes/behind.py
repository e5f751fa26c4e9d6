"""Behind this wall: choose the surface, then type or tap the spot. Each answer has an address that can be kept."""

from urllib.parse import urlencode

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.core.dependencies import Reading
from webapp.core.forms import BadForm, Submitted
from webapp.core.rendering import go_to, render, render_kept
from webapp.plan.guard import ThisBuild
from webapp.surfaces import forms, pages, store
from webapp.surfaces.rules.paper import PAPERS, usual_paper
from webapp.surfaces.rules.tagging import face_of
from webapp.values.length import field_length

router = APIRouter()
BEHIND = "surfaces/behind.html"


@router.get("/behind")
def choose(
    request: Request, session: Reading, here: ThisBuild, surface: str = "", x: str = "", y: str = ""
) -> Response:
    """With `surface` on to that one: the form names it, so that another wall can be chosen beside the spot."""
    if surface:
        known = store.get_surface(session, here.build.id, surface)
        asked = urlencode({name: typed for name, typed in (("x", x), ("y", y)) if typed})
        return go_to(f"{here.base}/surfaces/{known.code}/behind{f'?{asked}' if asked else ''}")
    template = "surfaces/choose_behind.html"
    return render_kept(request, session, here, template, lambda: pages.choose_page(session, here))


@router.get("/surfaces/{code}/behind")
def behind(request: Request, session: Reading, here: ThisBuild, code: str) -> Response:
    """`x` and `y` as they were typed; a tap is turned into them."""
    surface, sent = store.get_surface(session, here.build.id, code), Submitted(request.query_params.multi_items())
    face = face_of(surface, here.build.unit)
    tapped = forms.read_tap(sent, face) if face else None
    if tapped is not None:
        asked = urlencode({name: field_length(nm, here.build.unit) for name, nm in zip("xy", tapped, strict=True)})
        return go_to(f"{here.base}/surfaces/{surface.code}/behind?{asked}#answer")
    try:
        spot = forms.read_asked_spot(sent, here, surface)
    except BadForm as bad:
        return render(request, BEHIND, pages.behind_page(session, here, code, None, bad.state), status=422)
    return render(request, BEHIND, pages.behind_page(session, here, code, spot))


@router.get("/surfaces/{code}/sheet")
def printed(request: Request, session: Reading, here: ThisBuild, code: str, paper: str = "") -> Response:
    """Drawn for `paper` (a4 or letter); without it for the one that goes with the build's unit."""
    chosen = paper if paper in PAPERS else usual_paper(here.build.unit)
    template = "surfaces/paper.html"
    return render_kept(request, session, here, template, lambda: pages.printed_page(session, here, code, chosen))
