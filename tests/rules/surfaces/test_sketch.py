"""Openings on the key plan lie where they are: hand geometry of a room 14 x 22 ft inside, and of its mirror image."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.surfaces.rules.round import MOST, THICK, WIDTH, PlanSurface, key_plan
from webapp.surfaces.rules.sketch import PlanOpening, gap, measures, scale_bar
from webapp.values.length import NM_PER_FOOT as FOOT

ROOM = (0, 0, 22 * 10 + 2 * THICK, 14 * 10 + 2 * THICK)
"""ten units to the foot along the inner faces"""
WINDOW = PlanOpening("window", 3 * FOOT, 4 * FOOT)


def spot(side: str, corner: str, feet: int) -> tuple[int, int]:
    """Where the window begins along its wall, in units from the north or west inner corner, and how wide it is."""
    x, y, w, h = gap(side, ROOM, THICK, feet * FOOT, corner, WINDOW).box
    return (x - THICK, w) if side in "NS" else (y - THICK, h)


@pytest.mark.parametrize(
    ("side", "corner", "feet", "begins"),
    [
        ("N", "NW", 22, 30),  # three feet from the west
        ("E", "NE", 14, 30),  # three feet from the north
        ("S", "SE", 22, 220 - 70),  # three feet from the east: ends seven feet from it
        ("W", "SW", 14, 140 - 70),  # three feet from the south
        ("N", "NE", 22, 220 - 70),  # measured from the other corner
        ("E", "SE", 14, 140 - 70),
        ("S", "SW", 22, 30),
        ("W", "NW", 14, 30),
        ("N", "", 22, 30),  # no corner named: the left one
    ],
)
def test_an_opening_lies_where_it_was_measured_from_its_corner(side, corner, feet, begins):
    assert spot(side, corner, feet) == (begins, 40)


@given(st.integers(0, 18), st.integers(1, 4), st.sampled_from("NESW"))
def test_measured_from_either_corner_it_is_the_same_opening(start, width, side):
    feet = 22
    left, right = {"N": ("NW", "NE"), "E": ("NE", "SE"), "S": ("SE", "SW"), "W": ("SW", "NW")}[side]
    one = PlanOpening("window", start * FOOT, width * FOOT)
    other = PlanOpening("window", (feet - start - width) * FOOT, width * FOOT)
    assert gap(side, ROOM, THICK, feet * FOOT, left, one) == gap(side, ROOM, THICK, feet * FOOT, right, other)


def test_the_bar_measures_true_beside_its_drawing():
    bar = scale_bar(0, 0, 220, 22 * FOOT, "ft-in")
    assert (bar.words, bar.length) == ("4 ft", 40)
    metric = scale_bar(0, 0, 700, 7_000_000_000, "mm")
    assert (metric.words, metric.length) == ("2 m", 200)


def test_the_inside_measures_stand_on_their_lines():
    across, down = measures(ROOM, THICK, 22 * FOOT, 14 * FOOT, "ft-in")
    assert (across.words, down.words) == ("22′ 0″", "14′ 0″")
    assert across.line.startswith(f"M{THICK} ") and f"H{THICK + 220}" in across.line
    assert down.turned and f"V{THICK + 140}" in down.line


def a_room(*openings: PlanOpening) -> tuple[PlanSurface, ...]:
    sizes = {"E": 14, "S": 22, "W": 14, "N": 22}
    return tuple(
        PlanSurface(at, "wall", side, feet * FOOT, covered=False, openings=openings)
        for at, (side, feet) in enumerate(sizes.items(), 1)
    )


def test_a_number_points_at_wall_and_not_into_an_opening():
    middle = PlanOpening("window", 5 * FOOT, 4 * FOOT)
    wide = PlanOpening("window", 9 * FOOT, 4 * FOOT)
    plan = key_plan((*a_room(middle)[:1], *a_room(wide)[1:2], *a_room(middle)[2:3], *a_room(wide)[3:]))
    for mark in plan.numbers:
        for one in plan.gaps:
            x, y, w, h = one.box
            assert not (x <= mark.to_x <= x + w and y <= mark.to_y <= y + h)


def test_what_is_not_to_scale_shows_no_measure():
    long_shed = key_plan((PlanSurface(1, "wall", "E", 60 * FOOT, False), PlanSurface(2, "wall", "N", 8 * FOOT, False)))
    assert long_shed.room[3] == MOST
    assert (long_shed.bar, long_shed.measures) == (None, ())
    true = key_plan(a_room())
    assert true.bar is not None
    inner_across, inner_down = WIDTH - 2 * THICK, true.room[3] - 2 * THICK
    assert abs(inner_down / inner_across - 14 / 22) < 0.005
