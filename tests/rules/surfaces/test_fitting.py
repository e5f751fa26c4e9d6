"""What can be where: hand geometry of a wall 160 x 100 with a window from 50 to 90 along and from 30 to 80 up."""

from dataclasses import dataclass

import pytest

from webapp.surfaces.rules.fitting import box_wrong, in_opening, opening_wrong, run_wrong, thing_wrong

INCH = 25_400_000


@dataclass(frozen=True)
class Hole:
    x: int
    y: int
    width: int
    height: int
    name: str = "Window"

    x_nm = property(lambda self: self.x * INCH)
    y_nm = property(lambda self: self.y * INCH)
    width_nm = property(lambda self: self.width * INCH)
    height_nm = property(lambda self: self.height * INCH)


@dataclass(frozen=True)
class ABox:
    x: int
    y: int
    label: str = "Receptacle"

    x_nm = property(lambda self: self.x * INCH)
    y_nm = property(lambda self: self.y * INCH)


WINDOW = Hole(50, 30, 40, 50)


def run(*points: tuple[int, int]) -> str:
    bends = [(x * INCH, y * INCH) for x, y in points]
    return run_wrong("wall", 160 * INCH, 100 * INCH, bends, [WINDOW], "in")


@pytest.mark.parametrize(
    "points",
    [
        ((10, 10), (150, 10)),  # below it
        ((10, 30), (150, 30)),  # along its lower edge
        ((50, 10), (50, 90)),  # along its left edge
        ((10, 90), (45, 90), (45, 10), (150, 10)),  # around it
        ((0, 30), (70, 100)),  # past its upper left corner: crosses x = 50 at y = 80
    ],
)
def test_a_run_that_keeps_clear_of_the_window_can_be(points):
    assert run(*points) == ""


@pytest.mark.parametrize(
    ("points", "says"),
    [
        (((10, 50), (150, 50)), "Between lines 1 and 2 it goes through the opening “Window”."),
        (((70, 10), (70, 90)), "Between lines 1 and 2"),
        (((40, 20), (100, 90)), "Between lines 1 and 2"),
        (((10, 10), (20, 10), (20, 60), (100, 60)), "Between lines 3 and 4"),
        (((10, 10), (60, 40)), "Line 2 lies in the opening"),
        (((10, 10), (10, 10)), "Line 2 is the same place"),
        (((10, 10),), "a start and an end"),
        (((10, 10), (161, 10)), "Line 2: "),
    ],
)
def test_a_run_that_cannot_be_says_where(points, says):
    assert run(*points).startswith(says) or says in run(*points)


def wrong(hole: Hole, *others: Hole) -> dict[str, str]:
    return dict(opening_wrong("wall", 160 * INCH, 100 * INCH, hole, others, "in"))


def test_an_opening_lies_in_its_wall_and_beside_others():
    assert wrong(Hole(0, 0, 160, 100)) == {}
    assert wrong(Hole(10, 10, 40, 30), WINDOW) == {}, "edge to edge"
    assert set(wrong(Hole(10, 10, 41, 30), WINDOW)) == {"x"}
    assert set(wrong(Hole(130, 60, 40, 50))) == {"width", "height"}
    assert set(wrong(Hole(-1, 101, 4, 4))) == {"x", "y"}


def test_the_edge_of_an_opening_is_not_in_it():
    assert in_opening(50 * INCH, 40 * INCH, [WINDOW]) is None
    assert in_opening(51 * INCH, 40 * INCH, [WINDOW]) is WINDOW
    assert "“Window”" in thing_wrong(51 * INCH, 40 * INCH, [WINDOW])
    assert thing_wrong(None, 40 * INCH, [WINDOW]) == ""


def test_two_boxes_are_not_in_one_place():
    assert "“Receptacle” is there already" in box_wrong(20 * INCH, 16 * INCH, [ABox(21, 17)], "in")
    assert box_wrong(20 * INCH, 16 * INCH, [ABox(22, 16)], "in") == ""
    assert box_wrong(None, None, [ABox(22, 16)], "in") == ""
