"""What a password has to be.

NIST SP 800-63B (2017), 5.1.1.2, from memory: at least 8 characters, at least 64 allowed, no composition rules, and
one normal form of Unicode before hashing. Ours asks for ten.
"""

import pytest

from webapp.accounts.rules.passwords import read_new_password, settled
from webapp.values.errors import BadInput


def test_ten_characters_are_enough_whatever_they_are():
    assert read_new_password("abcdefghij") == "abcdefghij"
    assert read_new_password("mud and tape in may") == "mud and tape in may"
    assert len(read_new_password("ab" * 32)) == 64


@pytest.mark.parametrize("short", ["", "nine char", "          ", "a b"])
def test_a_short_one_is_refused_with_a_way_to_do_better(short):
    with pytest.raises(BadInput, match="at least 10 characters") as refused:
        read_new_password(short)
    assert "words in a row" in refused.value.sentence


def test_one_sign_over_and_over_is_refused():
    with pytest.raises(BadInput, match="over and over"):
        read_new_password("aaaaaaaaaaaa")


def test_a_book_is_too_long():
    with pytest.raises(BadInput, match="200"):
        read_new_password("ab" * 101)


def test_two_ways_to_compose_a_letter_are_one_password():
    """Unicode Standard Annex 15: é is one character or an e with a combining accent."""
    assert settled("caf\u00e9 caf\u00e9 caf\u00e9") == settled("cafe\u0301 cafe\u0301 cafe\u0301")
