"""How far things lie from a spot: hand geometry, and shapely (a general-purpose library of plane geometry, on GEOS)."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Point, box

from tests.builders import INCH
from tests.walls import WALL, a_run, a_thing
from webapp.surfaces.rules.elevation import Facts
from webapp.surfaces.rules.extent import Bar, Box, run_width_nm, thing_shapes
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.near import HAND_NM, direction, gap, hits

PLACES = st.tuples(st.integers(0, 6_000_000_000), st.integers(0, 3_000_000_000))
WIDTHS = st.integers(0, 300_000_000)
NM = 1e-6
"""shapely computes in doubles, which hold about sixteen figures; lengths here are some thousand millimetres"""


def mm(value: float) -> float:
    return value / 1_000_000


@given(PLACES, PLACES, PLACES, WIDTHS)
def test_to_a_straight_stretch_it_is_as_far_as_shapely_says(spot, start, end, half):
    ours = gap(spot, Bar(start, end, half)).distance_nm
    line = LineString([tuple(map(mm, start)), tuple(map(mm, end))])
    theirs = max(0.0, line.distance(Point(*map(mm, spot))) - mm(half))
    assert mm(ours) == pytest.approx(theirs, abs=2 * NM)


@given(PLACES, PLACES, WIDTHS, WIDTHS)
def test_to_a_rectangle_it_is_as_far_as_shapely_says(spot, corner, wide, tall):
    ours = gap(spot, Box(*corner, corner[0] + wide, corner[1] + tall)).distance_nm
    theirs = box(*map(mm, corner), mm(corner[0] + wide), mm(corner[1] + tall)).distance(Point(*map(mm, spot)))
    assert mm(ours) == pytest.approx(theirs, abs=2 * NM)


def test_a_slanted_run_is_measured_square_to_it():
    """A line from 0,0 to 40,30 and the spot 25,0: half base times height gives 25 x 30 / 50 = 15 (a 3-4-5 triangle)."""
    found = gap((25 * INCH, 0), Bar((0, 0), (40 * INCH, 30 * INCH), 0))
    assert found.squared == (15 * INCH) ** 2
    assert found.distance_nm == 15 * INCH


def test_past_its_end_it_is_measured_to_the_end():
    assert gap((43 * INCH, 4 * INCH), Bar((0, 0), (40 * INCH, 0), 0)).distance_nm == 5 * INCH


def test_within_a_hand_is_decided_without_rounding():
    bar = Bar((0, 0), (0, 100 * INCH), INCH // 4)
    edge = 4 * INCH + INCH // 4
    assert gap((edge, 50 * INCH), bar).within(HAND_NM["ft-in"])
    assert not gap((edge + 1, 50 * INCH), bar).within(HAND_NM["ft-in"])
    assert Fraction(HAND_NM["ft-in"], INCH) == 4
    assert HAND_NM["mm"] == 100_000_000


@pytest.mark.parametrize(
    ("label", "service", "inches"),
    [
        ("Sink drain, 2 in", "drain", "2.375"),  # ASTM D1785, Table 1, from memory
        ("Trap arm, 1 1/2 in", "drain", "1.9"),
        ("Cold water, 1/2 in", "water", "0.84"),
        ("Extractor duct, 6 in duct", "air", "6"),
        ("Screen tube, 1 1/2 in tube", "data", "1.9"),
        ("Network, 1 in conduit", "data", "1.315"),
        ("Feeder, 6-6-6-10 in conduit", "electric", "0.5"),  # the 10 is a gauge
        ("Bench, 12-2", "electric", "0.5"),
        ("Lights, 14-2, 20 in above the bench", "electric", "0.5"),
        ("Waste 40 mm", "drain", None),
        ("Vent", "vent", "2.375"),
        ("Something 90 in long", "water", "0.84"),
    ],
)
def test_the_width_of_a_run_is_read_from_its_label(label, service, inches):
    wanted = 40_000_000 if inches is None else int(Fraction(inches) * INCH)
    assert run_width_nm(a_run((0, 0), (10, 0), label=label, service=service)) == wanted


def test_what_is_near_comes_nearest_first_and_what_was_moved_is_apart():
    run, pipe = (
        a_run((10, 30), (100, 30)),
        a_run((10, 50), (100, 50), label="Cold, 1/2 in", service="water", id=2, tag="CW"),
    )
    there, moved = a_thing(x=60, y=40), a_thing(x=60, y=33, id=2, tag="E2", replaced=True)
    facts = Facts(WALL, (), (there, moved), (run, pipe))
    found = hits(facts, (60 * INCH, 33 * INCH))
    assert [hit.found.tag for hit in found] == ["C02", "E1", "CW"]
    assert found[0].gap.distance_nm == 3 * INCH - INCH // 4, "to the edge of a cable half an inch wide"
    assert found[1].gap.distance_nm == 7 * INCH - 3 * INCH // 2, "to the edge of a device box 3 in high"
    assert [hit.found.tag for hit in hits(facts, (60 * INCH, 33 * INCH), replaced=True)] == ["E2"]


def test_blocking_is_near_where_its_boards_are_and_not_in_the_window():
    cleat = a_thing("blocking", 80, 84, width_nm=120 * INCH, service="framing", label="Cleat, 2x8 flat")
    facts = Facts(WALL, (), (cleat,), ())
    found = hits(facts, (70 * INCH, 80 * INCH))
    assert found[0].gap.distance_nm == int((4 - Fraction(29, 8)) * INCH), "2x8 is 7 1/4 in, half of it 3 5/8"
    assert direction(SurfaceKind.WALL, found[0].gap) == "up"
    assert len(thing_shapes(facts, cleat)) > 1, "cut by the studs"


@pytest.mark.parametrize(
    ("kind", "spot", "words"),
    [
        ("wall", (60, 45), "here"),
        ("wall", (58, 45), "right"),
        ("wall", (66, 45), "left"),
        ("wall", (60, 20), "up"),
        ("wall", (60, 70), "down"),
        ("wall", (57, 27), "up and to the right"),
        ("trench", (60, 20), "deeper"),
        ("trench", (60, 70), "shallower"),
        ("ceiling", (60, 20), "down the plan"),
        ("ceiling", (60, 70), "up the plan"),
    ],
)
def test_the_way_there_in_words(kind, spot, words):
    """From each side of an upright line between 30 and 60 in; on a plan the second measure runs downwards."""
    bar = Bar((60 * INCH, 30 * INCH), (60 * INCH, 60 * INCH), 0)
    assert direction(SurfaceKind(kind), gap((spot[0] * INCH, spot[1] * INCH), bar)) == words
