"""What the forms of accounts send. A password is never given back to the page."""

from dataclasses import dataclass

from webapp.accounts.rules.passwords import read_new_password
from webapp.accounts.rules.ways import local_path
from webapp.core.forms import BadForm, FieldError, FormState, Reader, Submitted

PASSWORDS = ("password", "again", "current")
NAME_MISSING = "Write the name you want to be called by."


@dataclass(frozen=True, slots=True)
class SignInForm:
    name: str
    password: str
    stay: bool
    next: str
    state: FormState


@dataclass(frozen=True, slots=True)
class OwnerForm:
    name: str
    password: str


@dataclass(frozen=True, slots=True)
class PasswordForm:
    current: str
    password: str
    state: FormState


def _shown(reader: Reader) -> FormState:
    """What is drawn again: everything but passwords."""
    state = reader.state()
    return FormState({name: values for name, values in state.typed.items() if name not in PASSWORDS}, state.errors)


def _done(reader: Reader) -> FormState:
    state = _shown(reader)
    if state.errors:
        raise BadForm(state)
    return state


def _new_password(reader: Reader) -> str:
    password = reader.parsed("password", read_new_password, required="Choose a password.") or ""
    if password and reader.sent.text("again") != reader.sent.text("password"):
        reader.wrong("again", "The two are not the same. Type it once more.")
    return password


def read_sign_in(sent: Submitted) -> SignInForm:
    reader = Reader(sent)
    name = reader.text("name", required="Write your name.", most=80)
    password = reader.text("password", required="Write your password.", most=1000)
    stay, way = reader.flag("stay"), local_path(sent.text("next"))
    return SignInForm(name, password, stay, way, _done(reader))


def read_owner(sent: Submitted) -> OwnerForm:
    reader = Reader(sent)
    name = reader.text("name", required=NAME_MISSING, most=80)
    password = _new_password(reader)
    _done(reader)
    return OwnerForm(name, password)


def read_name(sent: Submitted) -> str:
    reader = Reader(sent)
    name = reader.text("name", required=NAME_MISSING, most=80)
    _done(reader)
    return name


def read_password_change(sent: Submitted) -> PasswordForm:
    reader = Reader(sent)
    current = reader.text("current", required="Write the password you have now.", most=1000)
    password = _new_password(reader)
    return PasswordForm(current, password, _done(reader))


def with_error(state: FormState, name: str, sentence: str) -> FormState:
    """The form as typed with one more sentence beside the field `name`."""
    return FormState(state.typed, {**state.errors, name: FieldError(sentence)})
