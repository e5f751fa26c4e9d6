"""Tables of accounts."""

from datetime import datetime

from sqlmodel import Field

from webapp.core.tables import Table


class Owner(Table, table=True):
    """The builder. The first one is made at the one-time set-up address."""

    __tablename__ = "accounts_owner"
    name: str = Field(unique=True, max_length=80)
    password_hash: str
    """Argon2id"""
    made_at: datetime


class SignIn(Table, table=True):
    """One signed-in phone or laptop; it can be ended from any other."""

    __tablename__ = "accounts_sign_in"
    owner_id: int = Field(foreign_key="accounts_owner.id", index=True)
    token_hash: str = Field(unique=True, max_length=64)
    """SHA-256 of the random cookie value; the value itself is never kept"""
    device: str = Field(max_length=120)
    begun_at: datetime
    seen_at: datetime
    ended_at: datetime | None = None


class SetUp(Table, table=True):
    """The one-time address by which the owner is made; used up by making the owner."""

    __tablename__ = "accounts_set_up"
    token_hash: str = Field(unique=True, max_length=64)
    made_at: datetime
    used_at: datetime | None = None


class WrongTry(Table, table=True):
    """A password that did not fit, so that the next tries slow down, also after a restart."""

    __tablename__ = "accounts_wrong_try"
    address: str = Field(max_length=64, index=True)
    at: datetime = Field(index=True)
