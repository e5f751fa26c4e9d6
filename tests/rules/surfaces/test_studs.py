"""Where studs stand, and offsets from the other side: worked examples and hand geometry."""

from dataclasses import replace
from math import ceil

import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.surfaces.rules.elevation import Facts, mirrored
from webapp.surfaces.rules.face import STUD_NM, Face, Opening, Run, Thing
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.studs import layout, members
from webapp.values.length import NM_PER_INCH as INCH

WALL = Face("E", "East wall", SurfaceKind.WALL, 161 * INCH, 108 * INCH, "NE", "SE", 16 * INCH, 12 * INCH, "ft-in")


def wall(length_in: int, spacing_in: int, first_in: int | None = None) -> Face:
    first = None if first_in is None else first_in * INCH
    return replace(WALL, length_nm=length_in * INCH, spacing_nm=spacing_in * INCH, first_stud_nm=first)


@pytest.mark.parametrize(
    ("feet", "spacing", "count"),
    [
        (16, 16, 13),  # published answer: hunker.com, article 12522814, "How to calculate studs needed"
        (20, 24, 11),  # the same trade rule by hand: 240 / 24 + 1
    ],
)
def test_a_straight_wall_has_as_many_studs_as_the_worked_examples(feet, spacing, count):
    assert len(members(wall(12 * feet, spacing))) == count


@given(st.integers(4, 60), st.sampled_from([16, 24]))
def test_the_count_is_the_trade_rule_unless_the_last_stud_would_stand_in_the_end_stud(feet, spacing):
    """Trade rule: ceil(length / spacing) + 1 (vbhomerepair.com, stud estimate; the article named above)."""
    length = 12 * feet
    rule = ceil(length / spacing) + 1
    last = (ceil(length / spacing) - 1) * spacing
    stands_in_the_end = last + 0.75 > length - 1.5
    assert len(members(wall(length, spacing))) == rule - stands_in_the_end


def test_studs_stand_at_the_first_one_and_every_spacing_after_it():
    assert [x / INCH for x in layout(WALL)] == [12, 28, 44, 60, 76, 92, 108, 124, 140, 156]
    assert [x / INCH for x in members(wall(48, 16, 16))] == [0.75, 16, 32, 47.25]
    assert layout(replace(WALL, spacing_nm=None)) == ()
    assert members(replace(WALL, spacing_nm=None)) == ()
    assert layout(replace(WALL, spacing_nm=STUD_NM - 1)) == (), "studs closer than they are thick are no layout"


def test_from_the_other_side_everything_is_measured_from_the_other_corner():
    facts = Facts(
        WALL,
        (Opening(1, "door", "Entry", 96 * INCH, 0, 38 * INCH, 82 * INCH),),
        (Thing(1, "E1", "receptacle", "East", "electric", 58 * INCH, 16 * INCH, None, replaced=False),),
        (Run(1, "C2", "Receptacles", "electric", ((20 * INCH, 60 * INCH), (58 * INCH, 16 * INCH)), replaced=False),),
    )
    seen = mirrored(facts)
    assert (seen.face.origin_corner, seen.face.far_corner) == ("SE", "NE")
    assert seen.openings[0].x_nm == (161 - 96 - 38) * INCH
    assert seen.things[0].x_nm == (161 - 58) * INCH
    assert seen.runs[0].points == ((141 * INCH, 60 * INCH), (103 * INCH, 16 * INCH))
    assert layout(seen.face) == tuple(sorted(WALL.length_nm - x for x in layout(WALL)))
    assert mirrored(seen) == facts


@given(st.integers(60, 400), st.sampled_from([12, 16, 24]), st.data())
def test_mirroring_twice_gives_the_same_wall(length, spacing, data):
    first = data.draw(st.integers(1, spacing))
    facts = Facts(wall(length, spacing, first))
    assert mirrored(mirrored(facts)) == facts
