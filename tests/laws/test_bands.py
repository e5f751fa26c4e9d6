"""Laws of the no-screw bands, whatever is on the wall: nothing that runs is left out, nothing leaves the surface."""

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, box, unary_union

from tests.builders import INCH
from tests.walls import WALL
from webapp.surfaces.rules.bands import MARGIN_NM, bands, groups
from webapp.surfaces.rules.elevation import Facts, standing
from webapp.surfaces.rules.extent import run_width_nm
from webapp.surfaces.rules.face import Run, Thing
from webapp.surfaces.rules.kinds import SERVICES

LONG, HIGH = WALL.length_nm // INCH, WALL.height_nm // INCH
SPOTS = st.tuples(st.integers(0, LONG * INCH), st.integers(0, HIGH * INCH))
LABELS = st.sampled_from(["12-2", "Drain, 2 in", "6 in duct", "line set", "Cold, 1/2 in"])
RUNS = st.builds(
    Run,
    id=st.integers(1, 99),
    tag=st.sampled_from(["", "C01", "CW"]),
    label=LABELS,
    service=st.sampled_from(SERVICES),
    points=st.lists(SPOTS, min_size=2, max_size=5, unique=True).map(tuple),
    replaced=st.booleans(),
)
THINGS = st.builds(
    Thing,
    id=st.integers(1, 99),
    tag=st.just("E1"),
    kind=st.sampled_from(["receptacle", "junction box", "duct", "blocking", "nail plate", "stub-out", "strap"]),
    label=st.just("Thing"),
    service=st.sampled_from(SERVICES),
    x_nm=st.integers(0, LONG * INCH),
    y_nm=st.integers(0, HIGH * INCH),
    width_nm=st.none() | st.integers(1, 60 * INCH),
    replaced=st.booleans(),
)
MANY = {"max_size": 4}
WALLS = st.builds(
    Facts, st.just(WALL), st.just(()), st.lists(THINGS, **MANY).map(tuple), st.lists(RUNS, **MANY).map(tuple)
)


def area(found):
    """The bands as shapely joins them, in inches."""
    return unary_union([box(*(at / INCH for at in (b.left, b.low, b.right, b.high))) for b in found])


@given(WALLS)
def test_every_point_of_every_run_lies_in_a_band(facts):
    union = area([band.box for band in bands(facts)])
    for run in standing(facts).runs:
        line = LineString([(x / INCH, y / INCH) for x, y in run.points])
        assert line.difference(union.buffer(1e-9)).length == 0


@given(WALLS)
def test_no_band_leaves_the_surface(facts):
    for band in bands(facts):
        assert 0 <= band.box.left <= band.box.right <= WALL.length_nm
        assert 0 <= band.box.low <= band.box.high <= WALL.height_nm


@given(WALLS)
def test_a_run_keeps_its_margin_to_every_side_unless_the_surface_ends(facts):
    """The run drawn as wide as it is and the margin (shapely's buffer) lies in the bands and the outside together."""
    union = area([band.box for band in bands(facts)])
    sheet = box(0, 0, LONG, HIGH)
    for run in standing(facts).runs:
        reach = ((run_width_nm(run) + 1) // 2 + MARGIN_NM) / INCH
        for start, end in pairwise(run.points):
            wide = LineString([(x / INCH, y / INCH) for x, y in (start, end)]).buffer(reach * 0.999, quad_segs=8)
            assert wide.intersection(sheet).difference(union.buffer(1e-6)).area < 1e-6


@given(WALLS)
def test_the_list_in_words_leaves_out_nothing_that_is_drawn(facts):
    found = bands(facts)
    listed = [one for group in groups(facts, found) for one in group.boxes]
    assert area([band.box for band in found]).symmetric_difference(area(listed)).area < 1e-9


@given(WALLS)
def test_what_was_pulled_out_or_moved_has_no_band(facts):
    assert bands(facts) == bands(standing(facts))
