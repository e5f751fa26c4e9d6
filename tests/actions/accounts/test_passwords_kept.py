"""Passwords as they are kept, and tries that a restart or sending side by side does not set free."""

import re
from concurrent.futures import ThreadPoolExecutor

import pytest
from sqlmodel import select

from webapp.accounts import actions
from webapp.accounts.actions import Slowed
from webapp.accounts.models import Owner, SetUp, SignIn
from webapp.core.database import Database
from webapp.values.errors import BadInput, NotFound

PASSWORD = "mud and tape in may"
PHONE, LAPTOP = "192.168.1.20", "192.168.1.30"


@pytest.fixture
def owner(database):
    with database.writing() as session:
        token = actions.offer_set_up(session)
        return actions.set_up_owner(session, token, "the builder", actions.hash_password(PASSWORD))


def guess(database, address=PHONE, password="wrong words in a row") -> str:
    try:
        actions.check_password(database, address, "the builder", password)
    except Slowed:
        return "slowed"
    except BadInput:
        return "wrong"
    return "right"


def test_a_password_is_kept_as_argon2id_with_64_mebibytes(database, owner):
    """RFC 9106, section 4, second recommended option: t=3, p=4, m=2^16 KiB, 128 bits of salt, 256 bits of tag."""
    with database.reading() as session:
        kept = session.exec(select(Owner)).one().password_hash
    assert re.fullmatch(r"\$argon2id\$v=19\$m=65536,t=3,p=4\$[\w+/]{22}\$[\w+/]{43}", kept)
    assert PASSWORD not in kept


def test_the_same_password_is_never_kept_the_same_way_twice():
    assert actions.hash_password(PASSWORD) != actions.hash_password(PASSWORD)


def test_neither_the_cookie_nor_the_set_up_address_can_be_read_from_the_record(database, owner):
    with database.writing() as session:
        token = actions.begin_sign_in(session, owner, "Phone")
    with database.reading() as session:
        kept = [session.exec(select(SignIn)).one().token_hash, session.exec(select(SetUp)).one().token_hash]
    assert token not in kept
    assert all(re.fullmatch(r"[0-9a-f]{64}", value) for value in kept)


def test_a_restart_does_not_forgive(settings, database, owner):
    assert [guess(database) for _ in range(6)] == ["wrong"] * 5 + ["slowed"]
    database.close()
    again = Database(settings.database)
    assert guess(again, password=PASSWORD) == "slowed"
    again.close()


def test_another_address_is_not_slowed(database, owner):
    assert [guess(database) for _ in range(6)][-1] == "slowed"
    assert guess(database, LAPTOP, PASSWORD) == "right"


def test_guesses_sent_side_by_side_are_counted_all_the_same(database, owner):
    with ThreadPoolExecutor(8) as pool:
        outcomes = list(pool.map(lambda _: guess(database), range(12)))
    assert outcomes.count("wrong") <= 5
    assert outcomes.count("right") == 0


def test_a_newer_set_up_address_ends_the_older_one(database):
    with database.writing() as session:
        older, newer = actions.offer_set_up(session), actions.offer_set_up(session)
    with database.writing() as session:
        with pytest.raises(NotFound, match="newer one"):
            actions.set_up_owner(session, older, "a stranger", "hash")
        actions.set_up_owner(session, newer, "the builder", "hash")
        assert actions.offer_set_up(session) == "", "there is an owner now"


def test_an_old_name_does_not_sign_in_any_more(database, owner):
    with database.writing() as session:
        actions.change_name(session, owner, "The Binder")
    assert guess(database, password=PASSWORD) == "wrong"
    assert actions.check_password(database, LAPTOP, "the binder", PASSWORD) == owner, "capitals do not matter"
