"""Published test values name their clause, and say nothing of having met it.

IRC P2503.4, P2503.5.1, P2503.6, P2503.7 and P2503.9; IFGC 406.4.1, as quoted by the offices in the builder's notes.
"""

import pytest

from webapp.linetests.rules.published import GAUGE, VALUES, published


@pytest.mark.parametrize(
    ("key", "clause", "value"),
    [
        ("dwv-water", "P2503.5.1", "10 ft of water"),
        ("dwv-air", "P2503.5.1", "5 psi or 10 in of mercury"),
        ("sewer-water", "P2503.4", "10 ft of water"),
        ("supply-water", "P2503.7", "working pressure or more"),
        ("supply-air", "P2503.7", "50 psi"),
        ("gas", "IFGC 406.4.1", "not less than 3 psi"),
        ("liner", "P2503.6", "2 in deep"),
    ],
)
def test_each_value_stands_with_its_clause(key, clause, value):
    found = published(key)
    assert clause in found.source
    assert value in found.wanted


def test_air_is_never_offered_without_its_warning():
    assert all("plastic" in one.note or "licensed" in one.note for one in VALUES if one.kind == "air pressure")


def test_no_value_calls_anything_good_enough():
    told = " ".join((GAUGE, *(f"{one.wanted} {one.note}" for one in VALUES))).lower()
    assert not [word for word in ("pass", "complies", "to code", "is fine", "good enough") if word in told]


def test_an_unknown_key_is_none():
    assert published("nothing") is None
