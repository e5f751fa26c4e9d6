"""The key plan: every surface is numbered once, inside the drawing, and what is closed is drawn closed."""

import re

from webapp.surfaces.rules.round import MOST, THICK, PlanSurface, hatch, key_plan
from webapp.values.length import NM_PER_FOOT as FOOT


def a_plan_wall(number: int, facing: str, feet: int = 14, covered: bool = False, kind: str = "wall") -> PlanSurface:
    return PlanSurface(number, kind, facing, feet * FOOT, covered)


ROOM = (
    a_plan_wall(1, "E"),
    a_plan_wall(2, "S", 22),
    a_plan_wall(3, "W"),
    a_plan_wall(4, "N", 22, covered=True),
    a_plan_wall(5, "", kind="ceiling"),
    a_plan_wall(6, "", kind="slab"),
    a_plan_wall(7, "E", kind="trench"),
)


def test_every_surface_is_numbered_once_and_inside_the_drawing():
    plan = key_plan(ROOM)
    assert sorted(mark.number for mark in plan.numbers) == [1, 2, 3, 4, 5, 6, 7]
    assert all(12 <= mark.x <= 350 - 12 and 12 <= mark.y <= plan.height - 12 for mark in plan.numbers)


def test_the_room_has_the_shape_of_its_walls():
    _x, _y, width, height = key_plan(ROOM).room
    assert abs((height - 2 * THICK) / (width - 2 * THICK) - 14 / 22) < 0.005


def test_a_long_shed_still_fits_a_phone():
    assert key_plan((a_plan_wall(1, "E", 60), a_plan_wall(2, "N", 8))).room[3] == MOST


def test_a_room_without_sizes_is_drawn_all_the_same():
    assert key_plan((PlanSurface(1, "wall", "", None, covered=False),)).numbers[0].number == 1


def test_only_closed_walls_have_their_board():
    plan = key_plan(ROOM)
    assert sorted(wall.board for wall in plan.walls) == [False, False, False, True]


def test_two_walls_on_one_side_share_it_and_are_closed_only_together():
    plan = key_plan((a_plan_wall(1, "N", covered=True), a_plan_wall(2, "N")))
    one, two = plan.numbers
    assert one.x < two.x
    assert not plan.walls[0].board


def test_numbers_do_not_lie_upon_each_other():
    marks = key_plan(ROOM).numbers
    for one in marks:
        for other in marks:
            if one is not other:
                assert (one.x - other.x) ** 2 + (one.y - other.y) ** 2 >= 24**2


def test_the_hatch_stays_within_its_wall():
    numbers = [int(text) for text in re.findall(r"\d+", hatch((40, 50, 100, 11)))]
    assert all(40 <= x <= 140 for x in numbers[::2])
    assert all(50 <= y <= 61 for y in numbers[1::2])
