"""What is drawn for one spot: the window around it, runs cut at its edges, the hatch of the bands, the way of a tap."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, box, unary_union

from tests.builders import INCH
from tests.walls import WALL, a_run, a_thing
from webapp.surfaces.rules.bands import Band, bands
from webapp.surfaces.rules.beside import framing_words, opening_words
from webapp.surfaces.rules.closeup import close_up, cut, window
from webapp.surfaces.rules.elevation import Facts, glance_scale
from webapp.surfaces.rules.extent import Box
from webapp.surfaces.rules.face import Face, Opening
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.near import hits
from webapp.surfaces.rules.spotted import STEP, Tapped, hatched, on_sheet, spotted, tapped_spot

SPOTS = st.tuples(st.integers(0, WALL.length_nm), st.integers(0, WALL.height_nm))
DOOR = Opening(1, "door", "Entry door", 110 * INCH, 0, 38 * INCH, 82 * INCH)
HAND = 4 * INCH


@given(SPOTS)
def test_the_window_holds_the_spot_and_stays_on_the_surface(spot):
    shows = window(WALL, spot)
    assert 0 <= shows.left <= spot[0] <= shows.right <= WALL.length_nm
    assert 0 <= shows.low <= spot[1] <= shows.high <= WALL.height_nm
    assert shows.right - shows.left == 75 * INCH, "270 units at 3.6 to the inch"


@given(SPOTS, st.lists(SPOTS, min_size=2, max_size=5, unique=True))
def test_of_a_run_as_much_is_drawn_as_shapely_finds_in_the_window(spot, bends):
    shows = window(WALL, spot)
    run = a_run(*((x / INCH, y / INCH) for x, y in bends))
    pieces = cut(Facts(WALL, (), (), (run,)), shows).runs
    seen = sum(LineString(piece.points).length for piece in pieces)
    edges = box(shows.left, shows.low, shows.right, shows.high)
    wanted = sum(LineString(pair).intersection(edges).length for pair in zip(run.points, run.points[1:], strict=False))
    assert seen / INCH == pytest.approx(wanted / INCH, abs=0.001)


BOXES = st.builds(
    lambda x, y, w, h: Box(x * INCH, y * INCH, (x + w) * INCH, (y + h) * INCH),
    *(st.integers(0, 50), st.integers(0, 50), st.integers(1, 60), st.integers(1, 50)),
)


@given(st.lists(BOXES, max_size=5))
def test_the_hatch_fills_all_bands_and_nothing_else_and_draws_nothing_twice(found):
    """Slanted lines a step apart, cut by shapely at the bands joined, are as long as what is drawn."""
    scale, _ = glance_scale(WALL)
    drawn = hatched([Band("x", one, usual=False) for one in found], scale).paths
    ends = re.findall(r"M([\d.-]+) ([\d.-]+)L([\d.-]+) ([\d.-]+)", "".join(path.d for path in drawn))
    ours = sum(LineString([(float(a), float(b)), (float(c), float(d))]).length for a, b, c, d in ends)
    union = unary_union([box(*on_sheet(one, scale)) for one in found])
    theirs = sum(
        LineString([(-999, at + 999), (999, at - 999)]).intersection(union).length for at in range(0, 999, STEP)
    )
    assert ours == pytest.approx(theirs, abs=0.02 * (len(ends) + 1))


@given(SPOTS)
def test_a_tap_on_the_ring_is_the_spot_again_to_what_a_finger_can_mean(spot):
    scale, _ = glance_scale(WALL)
    x, y = scale.at(spot)
    back = tapped_spot(scale, WALL, Tapped(x * 344 / 350, y * 344 / 350, 344))
    assert all(abs(a - b) <= INCH // 2 + 1 for a, b in zip(back, spot, strict=True))
    assert all(at % INCH == 0 for at in back)


def test_a_tap_beside_the_surface_is_taken_as_its_edge():
    scale, _ = glance_scale(WALL)
    assert tapped_spot(scale, WALL, Tapped(0, 0, 344)) == (0, WALL.height_nm)
    assert tapped_spot(scale, WALL, Tapped(344, 999, 344)) == (WALL.length_nm, 0)


def test_the_ring_is_a_hand_wide_and_the_measures_name_the_spot_and_what_is_near():
    facts = Facts(WALL, (), (a_thing(x=84, y=50),), (a_run((80, 10), (80, 100)),))
    spot = (78 * INCH, 50 * INCH)
    near = [hit for hit in hits(facts, spot) if hit.gap.within(HAND)]
    drawn = close_up(facts, bands(facts), near, spot, HAND)
    assert "a14.4 14.4 0 1 0 28.8 0" in drawn.within[-1].paths[0].d, "4 in at 3.6 units to the inch"
    assert {text.words for text in drawn.around.texts} >= {"6′ 6″", "6′ 8″", "4′ 2″"}
    assert {text.words for text in drawn.around.texts if "b" in text.pen.split()} == {"6′ 6″", "4′ 2″"}


def test_the_spot_lies_on_the_overview_when_there_is_one_and_only_then():
    facts = Facts(WALL, (), (), (a_run((10, 30), (100, 30)),))
    bare, asked = (spotted(facts, bands(facts), spot, HAND) for spot in (None, (10 * INCH, 10 * INCH)))
    assert len(asked.layers) == len(bare.layers) + 1


@pytest.mark.parametrize(
    ("spot", "words"),
    [
        ((28, 50), "On the stud whose middle is at 2′ 4″"),
        ((30, 50), "middle at 2′ 4″ (2″ left) and at 3′ 8″ (1′ 2″ right)"),
        ((126, 40), "middle at 9′ 0″ (1′ 6″ left) and at 13′ 0″ (2′ 6″ right)"),  # none stands in the door
        ((126, 100), "middle at 10′ 4″ (2″ left) and at 11′ 8″ (1′ 2″ right)"),  # above it they do
    ],
)
def test_studs_are_those_of_the_layout_that_stand_at_that_height(spot, words):
    """Studs at 12 in and every 16 in: 28, 44, ... 108, 124, 140, 156 in."""
    facts = Facts(WALL, (DOOR,), (), ())
    said = framing_words(facts, (spot[0] * INCH, spot[1] * INCH))
    assert words in said and "computed" in said


def test_without_a_spacing_nothing_is_said_of_studs():
    bare = Face("E", "Wall", SurfaceKind.WALL, 100 * INCH, 90 * INCH, "NE", "", None, None, "in")
    assert framing_words(Facts(bare), (0, 0)) == "How far apart its studs stand is not on record."
    trench = Face("T", "Trench", SurfaceKind.TRENCH, 100 * INCH, 30 * INCH, "", "", None, None, "in")
    assert framing_words(Facts(trench), (0, 0)) == ""


def test_an_opening_near_the_spot_is_said():
    facts = Facts(WALL, (DOOR,))
    assert opening_words(facts, (120 * INCH, 40 * INCH)) == "This spot lies in the opening “Entry door”."
    assert "“Entry door” is 5″ right" in opening_words(facts, (105 * INCH, 40 * INCH))
    assert opening_words(facts, (100 * INCH, 40 * INCH)) == ""
