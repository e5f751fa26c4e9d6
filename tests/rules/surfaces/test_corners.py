"""Which ends a surface has, and offsets from either end: hand geometry."""

from dataclasses import dataclass

import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.surfaces.rules.corners import across_corners, along, ends_of, is_known, is_same

INCH = 25_400_000


@dataclass(frozen=True)
class ASurface:
    length_nm: int | None = 161 * INCH
    origin_corner: str = "NE"
    far_corner: str = ""
    facing: str = "E"


EAST = ASurface()
TRENCH = ASurface(696 * INCH, "house wall", "garage wall", "")


def test_the_other_end_follows_from_the_side_a_wall_faces_or_is_said():
    assert ends_of(EAST) == ("NE", "SE")
    assert ends_of(ASurface(origin_corner="SE")) == ("SE", "NE")
    assert ends_of(ASurface(origin_corner="left of the door")) == ("left of the door", "")
    assert ends_of(TRENCH) == ("house wall", "garage wall")


def test_an_offset_from_the_far_end_is_the_length_less_it():
    assert along(EAST, "NE", 14 * INCH) == 14 * INCH
    assert along(EAST, "SE", 14 * INCH) == 147 * INCH
    assert along(EAST, "the se corner", 14 * INCH) == 147 * INCH
    assert along(TRENCH, "garage wall", 10 * INCH) == 686 * INCH
    assert along(EAST, "", 14 * INCH) == 14 * INCH
    assert along(EAST, "SE", None) is None
    assert along(ASurface(None), "SE", 14 * INCH) is None, "without a length nobody knows"
    assert along(ASurface(None), "NE", 14 * INCH) == 14 * INCH


@given(st.integers(0, 161 * 64), st.sampled_from(["NE", "SE"]))
def test_both_ends_together_make_the_length_to_the_last_sixty_fourth(part, corner):
    x = part * INCH // 64
    other = {"NE": "SE", "SE": "NE"}[corner]
    assert along(EAST, corner, x) + along(EAST, other, x) == EAST.length_nm


@pytest.mark.parametrize(
    ("surface", "corner", "known"),
    [
        (EAST, "se", True),
        (EAST, "NE corner", True),
        (EAST, "", True),
        (EAST, "SW", False),
        (TRENCH, "garage wall", True),
        (TRENCH, "NE", False),
        (ASurface(origin_corner="", facing=""), "anything", True),
    ],
)
def test_a_corner_that_is_neither_end_is_not_known(surface, corner, known):
    assert is_known(surface, corner) is known


def test_a_corner_is_the_same_however_it_is_written():
    assert is_same("NE", " the ne  corner ")
    assert not is_same("NE", "NW")


def test_a_plan_has_four_corners():
    assert across_corners("NW", "NE") == ("SW", "SE")
    assert across_corners("NE", "NW") == ("SE", "SW"), "from the other side"
    assert across_corners("NW", "SW") == ("NE", "SE")
    assert across_corners("NW", "SE") == ("", ""), "these two are opposite, so nothing follows"
    assert across_corners("house wall", "garage wall") == ("", "")
