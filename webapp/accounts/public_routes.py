"""Public pages of accounts: the way in, and the choice of look."""

import secrets

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.accounts import actions, forms, pages, store
from webapp.accounts.actions import Slowed, hash_token
from webapp.accounts.guard import cookie_name, door_sheet
from webapp.accounts.rules.devices import device_words
from webapp.accounts.rules.lockout import is_this_machine
from webapp.accounts.rules.ways import HOME, local_path
from webapp.accounts.store import LASTS
from webapp.core.dependencies import Config, Reading, Sending, Today, get_database
from webapp.core.forms import BadForm, FormState
from webapp.core.rendering import LOOK_COOKIE, LOOKS, go_to, render
from webapp.values.dates import show_long_day
from webapp.values.errors import BadInput, NotFound

router = APIRouter()
A_LONG_TIME = 400 * 24 * 3600
SET_UP_GONE = "This set-up address was used already, or a newer one was printed. Start Studbay again to see the newest."


def asked_from(request: Request) -> str:
    return request.client.host if request.client else ""


def let_in(request: Request, token: str, way: str, stay: bool, say: str = "") -> Response:
    """Redirect with the cookie of a new sign-in: unreadable to scripts, not sent along by other sites."""
    answer = go_to(way, say)
    answer.set_cookie(
        cookie_name(request),
        token,
        max_age=int(LASTS.total_seconds()) if stay else None,
        httponly=True,
        samesite="lax",
        secure=request.url.scheme == "https",
    )
    return answer


def begin(request: Request, owner_id: int, way: str, stay: bool, say: str = "") -> Response:
    with get_database(request).writing() as session:
        device = device_words(request.headers.get("user-agent", ""))
        token = actions.begin_sign_in(session, owner_id, device)
    return let_in(request, token, way, stay, say)


@router.get("/sign-in")
def sign_in_form(request: Request, session: Reading) -> Response:
    way = local_path(request.query_params.get("next", ""))
    page = pages.sign_in_page(session, door_sheet(request, "G6", "Sign in"), way)
    return render(request, "accounts/sign_in.html", page)


@router.post("/sign-in")
def sign_in(request: Request, session: Reading, sent: Sending) -> Response:
    def again(state: FormState, status: int, headers: dict[str, str] | None = None) -> Response:
        page = pages.sign_in_page(session, door_sheet(request, "G6", "Sign in"), local_path(sent.text("next")), state)
        return render(request, "accounts/sign_in.html", page, status=status, headers=headers)

    try:
        form = forms.read_sign_in(sent)
    except BadForm as bad:
        return again(bad.state, 422)
    try:
        owner_id = actions.check_password(get_database(request), asked_from(request), form.name, form.password)
    except Slowed as slowed:
        state = forms.with_error(form.state, "password", slowed.sentence)
        return again(state, 429, {"Retry-After": str(slowed.seconds)})
    except BadInput as bad_input:
        return again(forms.with_error(form.state, "password", bad_input.sentence), 422)
    return begin(request, owner_id, form.next, form.stay)


@router.get("/set-up/{token}")
def set_up_form(request: Request, session: Reading, token: str) -> Response:
    if store.find_set_up(session, hash_token(token)) is None:
        raise NotFound(SET_UP_GONE)
    return render(request, "accounts/set_up.html", pages.set_up_page(door_sheet(request, "G6", "Set up"), token))


@router.post("/set-up/{token}")
def set_up(request: Request, session: Reading, sent: Sending, token: str) -> Response:
    if store.find_set_up(session, hash_token(token)) is None:
        raise NotFound(SET_UP_GONE)
    try:
        form = forms.read_owner(sent)
    except BadForm as bad:
        page = pages.set_up_page(door_sheet(request, "G6", "Set up"), token, bad.state)
        return render(request, "accounts/set_up.html", page, status=422)
    hashed = actions.hash_password(form.password)
    with get_database(request).writing() as writing:
        owner_id = actions.set_up_owner(writing, token, form.name, hashed)
    return begin(request, owner_id, HOME, stay=True)


@router.get("/demo/{token}")
def enter_demo(request: Request, config: Config, today: Today, token: str) -> Response:
    """The address `studbay demo` prints: it signs in by itself, on this machine only."""
    wanted = getattr(request.app.state, "demo_token", "")
    known = bool(wanted) and secrets.compare_digest(token.encode(), wanted.encode())
    # A proxy on this machine would make the whole world look like this machine; it says so in these headers.
    passed_on = {"forwarded", "x-forwarded-for"} & set(request.headers.keys())
    if not (config.demo and known and is_this_machine(asked_from(request))) or passed_on:
        raise NotFound("There is no page at this address.")
    with get_database(request).writing() as session:
        owner_id = actions.ensure_demo_owner(session)
    held = f"This is an example, and all of it is invented. Its day is {show_long_day(today)}."
    return begin(request, owner_id, HOME, stay=False, say=held)


@router.post("/look")
def choose_look(sent: Sending) -> Response:
    """Kept on the phone itself: sun on the site, paper at the desk."""
    answer = go_to(local_path(sent.text("back")))
    look = sent.text("look")
    if look in LOOKS:
        answer.set_cookie(LOOK_COOKIE, look, max_age=A_LONG_TIME, httponly=True, samesite="lax")
    return answer
