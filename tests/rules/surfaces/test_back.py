"""Two faces of one wall, by hand geometry: what lies in the one as it lies in the other, and who may be whose."""

from dataclasses import dataclass, replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.surfaces.rules.back import back_wrong, other_face, seen_through, turned
from webapp.surfaces.rules.elevation import Facts, draw, glance, mirrored
from webapp.surfaces.rules.face import Face, Run, Thing
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.legend import legend
from webapp.values.length import NM_PER_INCH as INCH

INSIDE = Face("E", "East wall", SurfaceKind.WALL, 161 * INCH, 108 * INCH, "NE", "SE", 16 * INCH, 12 * INCH, "in")
OUTSIDE = replace(INSIDE, code="EX", name="East, outside", origin_corner="SE", far_corner="NE")
BOX = Thing(7, "E1", "receptacle", "Porch receptacle", "electric", 58 * INCH, 16 * INCH, None, replaced=False)
CABLE = Run(3, "C13", "12-2", "electric", ((58 * INCH, 16 * INCH), (58 * INCH, 90 * INCH)), replaced=False)


@dataclass(frozen=True)
class Wall:
    id: int
    name: str
    kind: str = "wall"
    length_nm: int | None = 161 * INCH
    back_of_id: int | None = None


def test_what_is_58_in_from_the_one_end_is_103_in_from_the_other():
    """161 in less 58 in."""
    (thing,), (run,) = seen_through(INSIDE, OUTSIDE, [BOX], [CABLE])
    assert thing.x_nm == 103 * INCH
    assert run.points == ((103 * INCH, 16 * INCH), (103 * INCH, 90 * INCH))


def test_faces_measured_from_the_corner_of_one_name_have_the_same_offsets():
    (thing,), (run,) = seen_through(INSIDE, replace(OUTSIDE, origin_corner=" ne"), [BOX], [CABLE])
    assert thing.x_nm == 58 * INCH
    assert run.points == CABLE.points


def test_a_corner_without_a_name_is_not_the_same_corner():
    (thing,), _ = seen_through(replace(INSIDE, origin_corner=""), replace(OUTSIDE, origin_corner=""), [BOX], [])
    assert thing.x_nm == 103 * INCH


def test_of_faces_measured_half_an_inch_apart_a_quarter_goes_to_either_end():
    assert turned(58 * INCH, 161 * INCH, 322 * INCH // 2 + INCH // 2, same_corner=False) == 103 * INCH + INCH // 4
    longer = replace(OUTSIDE, length_nm=162 * INCH)
    (thing,), _ = seen_through(INSIDE, longer, [replace(BOX, x_nm=0)], [])
    assert thing.x_nm == 161 * INCH, "it stays within this face"


def test_what_was_replaced_in_the_other_face_is_not_there():
    gone = (replace(BOX, replaced=True), replace(CABLE, replaced=True))
    assert seen_through(INSIDE, OUTSIDE, gone[:1], gone[1:]) == ((), ())


@given(st.integers(0, 10**10), st.integers(1, 10**10), st.integers(1, 10**10), st.booleans())
def test_turning_twice_changes_nothing(x, length, other, same):
    assert turned(turned(x, length, other, same), other, length, same) == x


def test_from_the_other_side_what_shows_through_is_turned_too_and_twice_is_as_before():
    facts = Facts(INSIDE, (), (), (), *seen_through(INSIDE, OUTSIDE, [BOX], [CABLE]))
    assert mirrored(facts).through[0].x_nm == 58 * INCH, "where the other face has it"
    assert mirrored(mirrored(facts)).through == facts.through
    assert mirrored(mirrored(facts)).through_runs == facts.through_runs


def test_what_shows_through_is_drawn_faint_without_a_tag_and_stands_in_the_legend():
    facts = Facts(INSIDE, (), (), (), *seen_through(INSIDE, OUTSIDE, [BOX], [CABLE]))
    for drawing in (draw(facts), glance(facts)):
        faint = [path.d for layer in drawing.layers for path in layer.paths if path.pen == "through"]
        x = drawing.scale.x(103 * INCH)
        assert faint[0].startswith(f"M{x:.2f}".rstrip("0").rstrip("."))
        assert drawing.tags == ()
    assert [sign.words for sign in legend(facts)] == ["in the other face"]


def test_either_of_the_two_may_say_it():
    one, other = Wall(1, "East", back_of_id=2), Wall(2, "Outside")
    assert other_face(one, (one, other)) == other
    assert other_face(other, (one, other)) == one
    assert other_face(Wall(3, "North"), (one, other)) is None


@pytest.mark.parametrize(
    ("one", "other", "sentence"),
    [
        (Wall(1, "East"), Wall(1, "East"), "its own other face"),
        (Wall(1, "East"), Wall(2, "Ceiling", "ceiling"), "Ceiling is a ceiling. Only a wall has another face."),
        (Wall(1, "East", "slab"), Wall(2, "Outside"), "East is a slab"),
        (Wall(1, "East"), Wall(2, "Outside", length_nm=163 * INCH), "Outside is 163 in long, this one 161 in."),
        (Wall(1, "East"), Wall(2, "Outside", back_of_id=3), "Outside is the other face of North already."),
        (Wall(1, "East"), Wall(2, "Outside", length_nm=162 * INCH), ""),
        (Wall(1, "East"), Wall(2, "Outside", length_nm=None), ""),
        (Wall(1, "East"), Wall(2, "Outside", "outside face", back_of_id=1), ""),
    ],
)
def test_what_cannot_be_the_other_face_is_said_in_a_sentence(one, other, sentence):
    found = back_wrong(one, other, (one, other, Wall(3, "North")), "in")
    assert found.startswith(sentence) or (sentence and sentence in found)
    assert bool(found) == bool(sentence)
