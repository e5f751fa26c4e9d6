"""What the pages of accounts receive."""

from dataclasses import dataclass
from datetime import date, datetime

from sqlmodel import Session

from webapp.accounts import store
from webapp.accounts.rules.passwords import SHORTEST
from webapp.accounts.store import LASTS, Signed, SignInFacts
from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.values.dates import show_day, show_moment


@dataclass(frozen=True, slots=True)
class SignInPage:
    sheet: Sheet
    form: FormState
    next: str
    days: int
    is_set_up: bool


@dataclass(frozen=True, slots=True)
class SetUpPage:
    sheet: Sheet
    form: FormState
    token: str
    shortest: int


@dataclass(frozen=True, slots=True)
class Device:
    id: int
    name: str
    detail: str
    here: bool


@dataclass(frozen=True, slots=True)
class SettingsPage:
    sheet: Sheet
    form: FormState
    look: str
    devices: tuple[Device, ...]
    shortest: int


def sign_in_page(session: Session, sheet: Sheet, way: str, form: FormState | None = None) -> SignInPage:
    is_set_up = store.find_owner(session) is not None
    return SignInPage(sheet, form or FormState.of(stay="1"), way, LASTS.days, is_set_up)


def set_up_page(sheet: Sheet, token: str, form: FormState | None = None) -> SetUpPage:
    return SetUpPage(sheet, form or FormState(), token, SHORTEST)


def settings_page(
    session: Session, sheet: Sheet, signed: Signed, today: date, form: FormState | None = None
) -> SettingsPage:
    """`form` is what was sent and not taken; a name that was not sent is shown as it is kept."""
    sent = form or FormState()
    shown = FormState({"name": (signed.name,), **sent.typed}, sent.errors)
    devices = tuple(_device(sign_in, signed, today) for sign_in in store.list_sign_ins(session, signed.owner_id))
    return SettingsPage(sheet, shown, sheet.look, devices, SHORTEST)


def _device(sign_in: SignInFacts, signed: Signed, today: date) -> Device:
    here = sign_in.id == signed.sign_in_id
    detail = f"Since {_day(sign_in.begun_at, today)}, last change sent {_moment(sign_in.seen_at, today)}"
    return Device(sign_in.id, sign_in.device, detail, here)


def _day(moment: datetime, today: date) -> str:
    return show_day(moment.astimezone().date(), today)


def _moment(moment: datetime, today: date) -> str:
    local = moment.astimezone()
    return f"today {local:%H:%M}" if local.date() == today else show_moment(local)
