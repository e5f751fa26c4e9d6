"""What to photograph: the pictures a surface asks for are taken onto its list, declined, or owed after all."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.core import once
from webapp.core.dependencies import Reading, Sending, Writing
from webapp.core.forms import BadForm
from webapp.core.rendering import go_to, render
from webapp.plan.guard import ThisBuild
from webapp.surfaces import actions, forms, pages, store
from webapp.values.words import plural

router = APIRouter(prefix="/surfaces/{code}/slots")
TEMPLATE = "surfaces/slots.html"


@router.get("")
def slots(request: Request, session: Reading, here: ThisBuild, code: str) -> Response:
    return render(request, TEMPLATE, pages.slots_page(session, here, code))


@router.post("/these")
def take_up(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str) -> Response:
    surface = store.get_surface(session, here.build.id, code)
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    try:
        chosen = forms.read_chosen(sent, pages.offers_of(session, here, surface))
    except BadForm as bad:
        return render(request, TEMPLATE, pages.slots_page(session, here, code, bad.state), status=422)
    added = actions.take_up(session, here.build.id, surface.id, chosen, here.today)
    back = saving.remember(f"{here.base}/surfaces/{surface.code}#owed")
    return go_to(back, say=f"{plural(added, 'picture')} added." if added else "None added. They stay declined.")


@router.post("/after-all")
def after_all(session: Writing, here: ThisBuild, sent: Sending, code: str) -> Response:
    surface = store.get_surface(session, here.build.id, code)
    slot = actions.owe_after_all(session, surface.id, sent.text("key"))
    return go_to(f"{here.base}/surfaces/{surface.code}/slots", say=f"Picture {slot.number} is owed now.")
