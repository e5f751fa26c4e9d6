"""Permits and the fees that follow visits."""

from fastapi import APIRouter, Request
from sqlmodel import Session
from starlette.responses import Response

from webapp.core import once
from webapp.core.dependencies import Config, Reading, Sending, Writing
from webapp.core.forms import BadForm
from webapp.core.rendering import go_to, render, render_kept
from webapp.hired.store import hired_choices
from webapp.inspections import actions, forms, pages, store
from webapp.photos.actions import keeping
from webapp.plan.guard import Here, ThisBuild
from webapp.values.words import plural

router = APIRouter()


def _hired(session: Session, here: Here) -> list[str]:
    return [value for value, _ in hired_choices(session, here.build.id)]


@router.get("/permits")
def permits(request: Request, session: Reading, here: ThisBuild) -> Response:
    return render_kept(request, session, here, "inspections/permits.html", lambda: pages.permits_page(session, here))


@router.get("/permits/new")
def new_permit(request: Request, session: Reading, here: ThisBuild) -> Response:
    return render(request, "inspections/permit.html", pages.permit_page(session, here))


@router.post("/permits")
def add_permit(request: Request, session: Writing, here: ThisBuild, sent: Sending) -> Response:
    try:
        form = forms.read_permit(sent, here.today, hired=_hired(session, here))
    except BadForm as bad:
        page = pages.permit_page(session, here, form=bad.state)
        return render(request, "inspections/permit.html", page, status=422)
    permit = actions.add_permit(session, here.build.id, form)
    return go_to(f"{here.base}/permits", say=f"{permit.name} is on the list with its own clock.")


@router.get("/permits/{code}")
def permit(request: Request, session: Reading, here: ThisBuild, code: str) -> Response:
    return render(request, "inspections/permit.html", pages.permit_page(session, here, code))


@router.post("/permits/{code}")
def edit_permit(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str) -> Response:
    try:
        form = forms.read_permit(
            sent, here.today, store.get_permit(session, here.build.id, code), _hired(session, here)
        )
    except BadForm as bad:
        page = pages.permit_page(session, here, code, bad.state)
        return render(request, "inspections/permit.html", page, status=422)
    changed = actions.edit_permit(session, here.build.id, code, form, sent.text("why")[:400])
    say = f"Put right: {plural(changed, 'part')}. What stood there before is kept below."
    return go_to(f"{here.base}/permits/{form.code}", say=say if changed else "Nothing was different.")


@router.get("/fees")
def fees(request: Request, session: Reading, here: ThisBuild) -> Response:
    return render(request, "inspections/fees.html", pages.fees_page(session, here), blocks=("panel",))


@router.get("/fees/{fee_id}")
def fee(request: Request, session: Reading, here: ThisBuild, fee_id: int) -> Response:
    return render(request, "inspections/fee.html", pages.fee_page(session, here, fee_id))


@router.post("/fees/{fee_id}/pay")
def pay_fee(
    request: Request, session: Writing, here: ThisBuild, sent: Sending, config: Config, fee_id: int
) -> Response:
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    try:
        paid = forms.read_payment(sent, here.today, keeping(session, config.photos, config.picture_mb))
    except BadForm as bad:
        page = pages.fee_page(session, here, fee_id, bad.state)
        return render(request, "inspections/fee.html", page, status=422)
    actions.pay_fee(session, here.build.id, fee_id, paid.on, paid.photo_id, paid.who)
    answer = f"{here.base}/fees/{fee_id}"
    return go_to(saving.remember(answer), say="Paid. It is in the spend under fees, and it stops no visit any more.")


@router.post("/fees/{fee_id}/right")
def correct_fee(request: Request, session: Writing, here: ThisBuild, sent: Sending, fee_id: int) -> Response:
    store.get_fee(session, here.build.id, fee_id)
    try:
        fee, why = forms.read_fee_again(sent, here)
    except BadForm as bad:
        return render(request, "inspections/fee.html", pages.fee_page(session, here, fee_id, bad.state), status=422)
    changed = actions.correct_fee(session, here.build.id, fee_id, fee, why, here.build.currency)
    say = "Put right. What it said before is kept below." if changed else "Nothing was different."
    return go_to(f"{here.base}/fees/{fee_id}", say=say)
