"""Reading accounts."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import func, select
from sqlmodel import Session, col

from webapp.accounts.models import Owner, SetUp, SignIn, WrongTry
from webapp.accounts.rules.lockout import REMEMBERED
from webapp.core.clock import in_utc, now
from webapp.core.database import remembered, rows

LASTS = timedelta(days=90)
"""how long a phone stays signed in"""


@dataclass(frozen=True, slots=True)
class Signed:
    """Who is asking, and by which sign-in."""

    owner_id: int
    name: str
    sign_in_id: int
    seen_at: datetime
    ends_at: datetime


@dataclass(frozen=True, slots=True)
class OwnerFacts:
    id: int
    name: str
    password_hash: str


@dataclass(frozen=True, slots=True)
class SignInFacts:
    """One phone or laptop that is signed in."""

    id: int
    device: str
    begun_at: datetime
    seen_at: datetime


def _signed(session: Session, token_hash: str) -> Signed | None:
    statement = (
        select(col(Owner.id), col(Owner.name), col(SignIn.id), col(SignIn.seen_at), col(SignIn.begun_at))
        .join(SignIn, col(Owner.id) == col(SignIn.owner_id))
        .where(col(SignIn.token_hash) == token_hash, col(SignIn.ended_at).is_(None))
    )
    for owner_id, name, sign_in_id, seen_at, begun_at in rows(session, statement):
        return Signed(owner_id, name, sign_in_id, in_utc(seen_at), in_utc(begun_at) + LASTS)
    return None


def find_signed(session: Session, token_hash: str) -> Signed | None:
    """Who holds this token; None when it is unknown, ended or too old."""
    signed = remembered(session, ("signed", token_hash), lambda: _signed(session, token_hash), worth=bool)
    return signed if signed and now() < signed.ends_at else None


def find_owner(session: Session) -> OwnerFacts | None:
    """The builder; None before the set-up."""
    found = rows(session, select(col(Owner.id), col(Owner.name), col(Owner.password_hash)).order_by(col(Owner.id)))
    return OwnerFacts(*found[0]) if found else None


def find_set_up(session: Session, token_hash: str) -> int | None:
    """The id of a set-up address that still can be used."""
    statement = select(col(SetUp.id)).where(col(SetUp.token_hash) == token_hash, col(SetUp.used_at).is_(None))
    found = rows(session, statement)
    return int(found[0][0]) if found else None


def list_wrong_tries(session: Session, address: str, at: datetime) -> tuple[datetime, ...]:
    """When wrong passwords came from `address` within the hour before `at`."""
    statement = select(col(WrongTry.at)).where(col(WrongTry.address) == address, col(WrongTry.at) > at - REMEMBERED)
    return tuple(in_utc(moment) for (moment,) in rows(session, statement))


def list_sign_ins(session: Session, owner_id: int) -> tuple[SignInFacts, ...]:
    """The phones and laptops signed in now, the one seen last first."""
    statement = (
        select(col(SignIn.id), col(SignIn.device), col(SignIn.begun_at), col(SignIn.seen_at))
        .where(col(SignIn.owner_id) == owner_id, col(SignIn.ended_at).is_(None), col(SignIn.begun_at) > now() - LASTS)
        .order_by(col(SignIn.seen_at).desc(), col(SignIn.id).desc())
    )
    return tuple(
        SignInFacts(number, device, in_utc(begun), in_utc(seen))
        for number, device, begun, seen in rows(session, statement)
    )


def count_owners(session: Session) -> int:
    return int(rows(session, select(func.count()).select_from(Owner))[0][0])
