"""A scale from two known spots, against geometry done by hand: upright, turned, unlike sides; and what gives none."""

import math
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from tests.builders import INCH
from webapp.surfaces.rules.scaled import Known, Spot, about, proposed, trouble

WIDE, HIGH = 4000, 2500
"""pixels; a spot in millionths of them"""


def at(right: float, down: float) -> Spot:
    """A spot by its pixels from the left and from the top."""
    return Spot(round(right * 1_000_000 / WIDE), round(down * 1_000_000 / HIGH))


def test_a_third_spot_by_rule_of_three_where_the_picture_is_level():
    """100 pixels are 2 in: 1000 to the right is 20 in, 500 further up is 10 in."""
    first = Known(at(1000, 2000), 30 * INCH, 16 * INCH)
    second = Known(at(3000, 2000), 70 * INCH, 16 * INCH)
    assert proposed(first, second, WIDE, HIGH, at(2000, 1500)) == (50 * INCH, 26 * INCH)
    assert proposed(first, second, WIDE, HIGH, at(1000, 2000)) == (30 * INCH, 16 * INCH)
    assert proposed(first, second, WIDE, HIGH, at(3000, 2000)) == (70 * INCH, 16 * INCH)


def test_two_marks_one_above_the_other_on_a_stud_say_it_too():
    """500 pixels are 10 in of height, so 250 to the right are 5 in along."""
    first, second = Known(at(500, 2500), 32 * INCH, 12 * INCH), Known(at(500, 2000), 32 * INCH, 22 * INCH)
    assert proposed(first, second, WIDE, HIGH, at(750, 2250)) == (37 * INCH, 17 * INCH)


def test_a_phone_held_askew_by_a_3_4_5_triangle_is_turned_back():
    """The known two lie 1000 apart, 800 right and 600 down: the phone was turned. 20 in apart, level, on the wall."""
    first, second = Known(at(1000, 1000), 0, 50 * INCH), Known(at(1800, 1600), 20 * INCH, 50 * INCH)
    upwards = at(1000 + 600, 1000 - 800)  # a right angle to the line of the two, 1000 long
    assert proposed(first, second, WIDE, HIGH, upwards) == (0, 70 * INCH)
    assert trouble(first, second, WIDE, HIGH) == ""


def test_spots_that_give_no_scale_are_told_apart():
    first = Known(at(1000, 1000), 0, 0)
    assert "are the same" in trouble(first, Known(at(1000, 1000), INCH, 0), WIDE, HIGH)
    assert "are the same" in trouble(first, Known(at(2000, 1000), 0, 0), WIDE, HIGH)
    assert "right way round" in trouble(first, Known(at(2000, 1000), -INCH, 0), WIDE, HIGH)
    assert "right way round" in trouble(first, Known(at(2000, 1000), 0, INCH), WIDE, HIGH)


def test_a_picture_says_no_more_than_half_an_inch_or_a_centimetre():
    assert about(10 * INCH + INCH // 3, metric=False) == 10 * INCH + INCH // 2
    assert about(10 * INCH + INCH // 5, metric=False) == 10 * INCH
    assert about(1_234_000_000, metric=True) == 1_230_000_000
    assert about(1_235_000_000, metric=True) == 1_240_000_000


spots = st.tuples(st.integers(0, WIDE), st.integers(0, HIGH))


@given(spots, spots, spots, st.integers(-40, 40), st.integers(50, 400))
def test_any_turn_and_size_is_found_again(one, two, three, degrees, tenths):
    """The wall is drawn into a picture by sine and cosine, and read off it again."""
    if math.dist(one, two) < 200:
        return
    angle, size = math.radians(degrees), tenths * INCH / 1000

    def on_wall(spot):
        right, up = spot[0], HIGH - spot[1]
        x = size * (math.cos(angle) * right - math.sin(angle) * up)
        return round(x), round(size * (math.sin(angle) * right + math.cos(angle) * up))

    first, second = (Known(Spot(*_millionths(spot)), *on_wall(spot)) for spot in (one, two))
    if trouble(first, second, WIDE, HIGH):
        return
    found, true = proposed(first, second, WIDE, HIGH, Spot(*_millionths(three))), on_wall(three)
    assert math.dist(found, true) < INCH / 64


def _millionths(spot):
    return (int(Fraction(spot[0] * 1_000_000, WIDE)), int(Fraction(spot[1] * 1_000_000, HIGH)))
