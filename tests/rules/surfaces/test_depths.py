"""Depths along a trench: by hand, and the least covers against the printed table."""

from webapp.surfaces.rules.depths import COVERS, SOURCE, depth_of

INCH = 25_400_000


def points(*pairs: tuple[int, int]) -> tuple[tuple[int, int], ...]:
    return tuple((x * INCH, y * INCH) for x, y in pairs)


def test_a_level_run_has_one_depth():
    depth = depth_of(points((8, 24), (348, 24), (686, 24)))
    assert (depth.least_nm, depth.changes) == (24 * INCH, ())


def test_a_change_on_the_way_is_found_and_the_least_cover_is_the_shallow_end():
    depth = depth_of(points((8, 24), (348, 24), (686, 18)))
    assert depth.least_nm == 18 * INCH
    assert depth.changes == ((points((348, 24))[0], points((686, 18))[0]),)


def test_a_riser_is_no_change_of_depth():
    depth = depth_of(points((8, 0), (8, 24), (686, 24), (686, 0)))
    assert (depth.least_nm, depth.changes) == (24 * INCH, ())
    assert depth_of(points((8, 0), (8, 24))) is None


def test_the_least_covers_are_those_of_the_table():
    """NEC Table 300.5, columns 1, 3, 2 and 4: 24, 18, 6 and 12 in, as two towns' handouts on buried wiring quote it."""
    assert [cover.least_nm // INCH for cover in COVERS] == [24, 18, 6, 12]
    assert "NEC Table 300.5" in SOURCE
    assert "your local authority decides" in SOURCE
