"""Set-up, sign-in, sign-out. Passwords are kept as Argon2id (RFC 9106) with the library's own parameters."""

import functools
import hashlib
import secrets
import threading
from datetime import timedelta

from pwdlib import PasswordHash
from pwdlib.hashers.argon2 import Argon2Hasher
from sqlalchemy import delete, update
from sqlmodel import Session, col, select

from webapp.accounts import store
from webapp.accounts.models import Owner, SetUp, SignIn, WrongTry
from webapp.accounts.rules.lockout import REMEMBERED, counted_as, seconds_left, show_wait
from webapp.accounts.rules.passwords import settled
from webapp.accounts.store import Signed
from webapp.core.clock import now
from webapp.core.database import Database
from webapp.values.errors import BadInput, NotFound

SEEN_AT_MOST_EVERY = timedelta(hours=1)
PATIENCE = 3.0
"""seconds a try waits for the one before; each takes 64 MiB of memory, so they go one after the other"""

_hashes = PasswordHash((Argon2Hasher(),))
_one_try_at_a_time = threading.Lock()


class Slowed(Exception):
    """Too many wrong passwords; nothing was looked at."""

    def __init__(self, seconds: int) -> None:
        self.seconds = seconds
        self.sentence = f"Too many wrong tries. Wait {show_wait(seconds)}, then try again."
        super().__init__(self.sentence)


def hash_token(token: str) -> str:
    """SHA-256: enough for 256 random bits, and it never shows what the cookie was."""
    return hashlib.sha256(token.encode()).hexdigest()


@functools.cache
def _nobodys_hash() -> str:
    return _hashes.hash(secrets.token_urlsafe(16))


def hash_password(password: str) -> str:
    return _hashes.hash(settled(password))


def check_password(database: Database, address: str, name: str | None, password: str) -> int:
    """The owner's id when name and password fit; `name` None asks for the password alone.

    Takes the record and not a session, for hashing must not hold the writer lock. Raises Slowed while the address has
    to wait, BadInput when something does not fit (noted, so that the next ones slow down).
    """
    place = counted_as(address)
    _refuse_if_slowed(database, place)
    if not _one_try_at_a_time.acquire(timeout=PATIENCE):
        raise Slowed(2)
    try:
        _refuse_if_slowed(database, place)  # again: tries sent side by side must not all pass the first look
        return _look_at(database, place, name, password)
    finally:
        _one_try_at_a_time.release()


def _refuse_if_slowed(database: Database, place: str) -> None:
    with database.reading() as session:
        moment = now()
        left = seconds_left(store.list_wrong_tries(session, place, moment), moment)
    if left:
        raise Slowed(left)


def _look_at(database: Database, place: str, name: str | None, password: str) -> int:
    with database.reading() as session:
        owner = store.find_owner(session)
    # Somebody who does not exist takes as long as somebody who does, so the time tells nothing.
    fits = _hashes.verify(settled(password), owner.password_hash if owner else _nobodys_hash())
    if owner and fits and (name is None or name.casefold() == owner.name.casefold()):
        return owner.id
    with database.writing() as session:
        note_wrong_try(session, place)
    raise BadInput("Name and password do not fit together." if name is not None else "This is not the password.")


def note_wrong_try(session: Session, place: str) -> None:
    moment = now()
    session.exec(delete(WrongTry).where(col(WrongTry.at) < moment - REMEMBERED))
    session.add(WrongTry(address=place, at=moment))


def offer_set_up(session: Session) -> str:
    """The token of a new one-time set-up address; older ones end. Empty when there is an owner already."""
    if store.count_owners(session):
        return ""
    session.exec(update(SetUp).where(col(SetUp.used_at).is_(None)).values(used_at=now()))
    token = secrets.token_urlsafe(32)
    session.add(SetUp(token_hash=hash_token(token), made_at=now()))
    return token


def set_up_owner(session: Session, token: str, name: str, password_hash: str) -> int:
    """Make the one owner and use the address up; the owner's id."""
    set_up = session.exec(select(SetUp).where(SetUp.token_hash == hash_token(token))).first()
    if set_up is None or set_up.used_at is not None or store.count_owners(session):
        raise NotFound("This set-up address was used already, or a newer one was printed.")
    set_up.used_at = now()
    return _add_owner(session, name, password_hash)


def _add_owner(session: Session, name: str, password_hash: str) -> int:
    owner = Owner(name=name, password_hash=password_hash, made_at=now())
    session.add(owner)
    session.flush()
    return owner.row_id


def ensure_demo_owner(session: Session) -> int:
    """The demo's owner, with a password that nobody knows: the demo is entered by its own address."""
    owner = store.find_owner(session)
    return owner.id if owner else _add_owner(session, "the builder", hash_password(secrets.token_urlsafe(32)))


def begin_sign_in(session: Session, owner_id: int, device: str) -> str:
    """A new sign-in; returns the cookie's value, which is kept nowhere."""
    token = secrets.token_urlsafe(32)
    moment = now()
    session.add(SignIn(owner_id=owner_id, token_hash=hash_token(token), device=device, begun_at=moment, seen_at=moment))
    return token


def end_sign_in(session: Session, owner_id: int, sign_in_id: int) -> str:
    """End one sign-in; its device in words."""
    found = session.exec(select(SignIn).where(SignIn.id == sign_in_id, SignIn.owner_id == owner_id)).first()
    if found is None:
        raise NotFound("There is no such sign-in.")
    found.ended_at = found.ended_at or now()
    return found.device


def change_name(session: Session, owner_id: int, name: str) -> None:
    session.exec(update(Owner).where(col(Owner.id) == owner_id).values(name=name))


def change_password(session: Session, owner_id: int, password_hash: str, keep: int | None) -> int:
    """The new password; every sign-in but `keep` ends. Returns how many ended."""
    session.exec(update(Owner).where(col(Owner.id) == owner_id).values(password_hash=password_hash))
    others = [sign_in.id for sign_in in store.list_sign_ins(session, owner_id) if sign_in.id != keep]
    session.exec(update(SignIn).where(col(SignIn.id).in_(others)).values(ended_at=now()))
    return len(others)


def note_seen(database: Database, signed: Signed) -> None:
    """Write down that this sign-in was used; called after an answer went out, so it holds nothing up."""
    with database.writing() as session:
        session.exec(update(SignIn).where(col(SignIn.id) == signed.sign_in_id).values(seen_at=now()))


def is_to_be_noted(signed: Signed) -> bool:
    return now() - signed.seen_at >= SEEN_AT_MOST_EVERY
