"""Whether a hidden thing lies inside its surface."""

import pytest

from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.places import ACROSS, UP, outside
from webapp.values.length import NM_PER_INCH as INCH

WALL = ("wall", 161 * INCH, 108 * INCH)


def test_what_lies_inside_is_not_remarked_upon():
    assert outside(*WALL, 0, 0, "ft-in") == {}
    assert outside(*WALL, 161 * INCH, 108 * INCH, "ft-in") == {}


def test_each_offset_outside_gets_its_own_sentence():
    wrong = outside(*WALL, 200 * INCH, 120 * INCH, "ft-in")
    assert wrong["x"] == "16′ 8″ lies outside: the length of this surface is 13′ 5″."
    assert wrong["y"] == "10′ 0″ lies outside: the height of this surface is 9′ 0″."


def test_a_sixty_fourth_of_an_inch_too_far_is_outside():
    assert "x" in outside(*WALL, 161 * INCH + INCH // 64, 0, "ft-in")


def test_below_zero_is_outside():
    assert set(outside(*WALL, -1, -1, "mm")) == {"x", "y"}


def test_what_is_not_measured_asks_nothing():
    assert outside("trench", None, None, 10_000 * INCH, None, "ft-in") == {}
    assert outside(*WALL, None, None, "ft-in") == {}


@pytest.mark.parametrize("kind", SurfaceKind)
def test_every_kind_of_surface_has_words_for_its_second_measure(kind):
    assert ACROSS[kind]
    assert UP[kind]
