"""What is free on a sheet: asked rectangle by rectangle, and looked up, the answer is the same."""

from hypothesis import given
from hypothesis import strategies as st

from webapp.surfaces.rules.room import CELL, Asked, Sheet, View, begins, cells_of, nearest

NUMBER = st.floats(0, 300)
TAKEN = st.lists(st.tuples(NUMBER, NUMBER, st.floats(0, 60), st.floats(0, 60)), max_size=8)
LEADERS = st.lists(st.tuples(NUMBER, NUMBER, NUMBER, NUMBER), max_size=4)
WIDTH, HEIGHT = 27.0, 22.0
BOUNDS = (10, 10, 310, 300)


def a_sheet(taken, led=()) -> Sheet:
    sheet = Sheet.of(320, 320)
    for one in taken:
        sheet.take(*one)
    for one in led:
        sheet.put(sheet.grid.line(*one))
    return sheet


def is_free(sheet: Sheet, column: int, row: int) -> bool:
    """Asked as a rectangle with one unit around it."""
    return sheet.is_free(sheet.grid.box(column * CELL, row * CELL, WIDTH + 2, HEIGHT + 2))


@given(TAKEN, st.floats(-40, 360), st.floats(-40, 360), st.floats(0, 90), st.floats(0, 90))
def test_a_rectangle_is_free_where_no_other_has_a_cell_of_it(taken, x, y, width, height):
    def cells(x, y, width, height):
        return {
            (column, row)
            for column in range(int(x) // CELL, int(x + width) // CELL + 1)
            for row in range(int(y) // CELL, int(y + height) // CELL + 1)
            if 0 <= column <= 320 // CELL and 0 <= row <= 320 // CELL
        }

    sheet = a_sheet(taken)
    meets = any(cells(*one) & cells(x, y, width, height) for one in taken)
    assert sheet.is_free(sheet.grid.box(x, y, width, height)) is not meets


@given(TAKEN, LEADERS)
def test_where_a_rectangle_can_begin_is_the_same_looked_up_and_searched(taken, led):
    sheet = a_sheet(taken, led)
    across = sheet.grid.across
    blocked = begins(sheet.full, cells_of(WIDTH, HEIGHT), across)
    wrong = [
        (column, row)
        for row in range(70)
        for column in range(72)
        if is_free(sheet, column, row) == bool(blocked >> row * across + column & 1)
    ]
    assert wrong == []


@given(TAKEN, NUMBER, NUMBER)
def test_the_nearest_free_place_is_the_nearest_of_all(taken, x, y):
    sheet = a_sheet(taken)
    asked, whole = Asked(x, y, WIDTH, HEIGHT, BOUNDS), View(0, 0, sheet.grid)
    found = nearest(asked, whole, sheet.full, sheet.grid.across)
    every = [
        (column * CELL + 1, row * CELL + 1)
        for row in range(3, 70)
        for column in range(3, 71)
        if is_free(sheet, column, row) and column * CELL + 1 + WIDTH <= 310 and row * CELL + 1 + HEIGHT <= 300
    ]
    if not every:
        assert found is None
        return
    best = min((left - x) ** 2 + (top - y) ** 2 for left, top in every)
    assert found is not None
    assert (found[0] - x) ** 2 + (found[1] - y) ** 2 <= best + 1e-6


@given(TAKEN, NUMBER, NUMBER, st.integers(5, 40))
def test_what_is_found_close_by_is_what_is_found_on_the_whole_sheet(taken, x, y, far):
    sheet = a_sheet(taken)
    across, (wide, tall) = sheet.grid.across, cells_of(WIDTH, HEIGHT)
    asked = Asked(x, y, WIDTH, HEIGHT, BOUNDS)
    view = View(int(x) // CELL - far, int(y) // CELL - far, (2 * far + wide, 2 * far + tall))
    near = nearest(asked, view, view.seen(sheet.full, across), across)
    whole = nearest(asked, View(0, 0, sheet.grid), sheet.full, across)
    if near is not None and (near[0] - x) ** 2 + (near[1] - y) ** 2 < ((far - 2) * CELL) ** 2:
        assert near == whole
    elif near is None:
        assert whole is None or (whole[0] - x) ** 2 + (whole[1] - y) ** 2 >= ((far - 2) * CELL) ** 2
