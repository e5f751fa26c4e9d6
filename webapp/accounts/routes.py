"""Settings of the builder, and the phones and laptops that are signed in."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.accounts import actions, forms, pages
from webapp.accounts.actions import Slowed
from webapp.accounts.guard import Builder, OutsideBuilds, cookie_name
from webapp.core.dependencies import Reading, Sending, Writing, get_database
from webapp.core.forms import BadForm, FormState
from webapp.core.rendering import go_to, render
from webapp.values.errors import BadInput
from webapp.values.words import plural

router = APIRouter()


def settings_again(
    request: Request, session: Reading, here: OutsideBuilds, signed: Builder, state: FormState, status: int
) -> Response:
    page = pages.settings_page(session, here.sheet("G5", "Settings"), signed, here.today, state)
    return render(request, "accounts/settings.html", page, status=status)


@router.get("/settings")
def settings(request: Request, session: Reading, here: OutsideBuilds, signed: Builder) -> Response:
    page = pages.settings_page(session, here.sheet("G5", "Settings"), signed, here.today)
    return render(request, "accounts/settings.html", page)


@router.post("/settings")
def change_name(request: Request, session: Writing, here: OutsideBuilds, signed: Builder, sent: Sending) -> Response:
    try:
        name = forms.read_name(sent)
    except BadForm as bad:
        return settings_again(request, session, here, signed, bad.state, 422)
    actions.change_name(session, signed.owner_id, name)
    return go_to("/settings", say="The name is changed. Sign in with it from now on.")


@router.post("/settings/password")
def change_password(
    request: Request, session: Reading, here: OutsideBuilds, signed: Builder, sent: Sending
) -> Response:
    database = get_database(request)
    try:
        form = forms.read_password_change(sent)
    except BadForm as bad:
        return settings_again(request, session, here, signed, bad.state, 422)
    try:
        address = request.client.host if request.client else ""
        actions.check_password(database, address, None, form.current)
    except (BadInput, Slowed) as wrong:
        state = forms.with_error(form.state, "current", wrong.sentence)
        return settings_again(request, session, here, signed, state, 429 if isinstance(wrong, Slowed) else 422)
    hashed = actions.hash_password(form.password)
    with database.writing() as writing:
        ended = actions.change_password(writing, signed.owner_id, hashed, keep=signed.sign_in_id)
    also = f" {plural(ended, 'other sign-in')} ended." if ended else ""
    return go_to("/settings", say=f"The password is changed.{also}")


@router.post("/sign-ins/{sign_in_id}/end")
def end_sign_in(session: Writing, signed: Builder, sign_in_id: int) -> Response:
    device = actions.end_sign_in(session, signed.owner_id, sign_in_id)
    return go_to("/settings", say=f"{device}: signed out.")


@router.post("/sign-out")
def sign_out(request: Request, session: Writing, signed: Builder) -> Response:
    actions.end_sign_in(session, signed.owner_id, signed.sign_in_id)
    answer = go_to("/sign-in", say="You are signed out.")
    answer.delete_cookie(cookie_name(request), httponly=True, samesite="lax", secure=request.url.scheme == "https")
    return answer
