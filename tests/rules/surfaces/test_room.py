"""What is free on a sheet: asked cell by cell, and looked up, the answer is the same."""

from hypothesis import given
from hypothesis import strategies as st

from webapp.surfaces.rules.room import CELL, Sheet, cells_of

NUMBER = st.floats(0, 300)
TAKEN = st.lists(st.tuples(NUMBER, NUMBER, st.floats(0, 60), st.floats(0, 60)), max_size=8)
LEADERS = st.lists(st.tuples(NUMBER, NUMBER, NUMBER, NUMBER), max_size=4)


def wrong(sheet: Sheet, width: float, height: float) -> list[tuple[int, int]]:
    """Cells in which the quick answer and the slow one differ."""
    starts = sheet.starts(cells_of(width, height))
    found = []
    for row in range(len(sheet.full) - 12):
        for column in range(80):
            slow = sheet.is_free(column * CELL, row * CELL, width + 2, height + 2)
            if slow == bool(starts[row] >> column & 1):
                found.append((row, column))
    return found


@given(TAKEN, LEADERS, TAKEN, LEADERS)
def test_looked_up_and_searched_are_the_same_however_it_was_taken(before, led, after, later):
    sheet, size = Sheet.of(320), (27.0, 22.0)
    for one in before:
        sheet.take(*one)
    for one in led:
        sheet.take_leader(*one)
    assert wrong(sheet, *size) == []
    for one in after:
        sheet.take(*one)
    for one in later:
        sheet.take_leader(*one)
    assert wrong(sheet, *size) == [], "kept up while more is taken"


@given(TAKEN, NUMBER, NUMBER)
def test_the_nearest_free_place_is_the_nearest_of_all(taken, x, y):
    sheet, bounds, width, height = Sheet.of(320), (10, 10, 310, 300), 27.0, 22.0
    for one in taken:
        sheet.take(*one)
    found = sheet.nearest(x, y, width, height, bounds)
    every = [
        (column * CELL + 1, row * CELL + 1)
        for row in range(3, 70)
        for column in range(3, 71)
        if sheet.is_free(column * CELL, row * CELL, width + 2, height + 2)
        and column * CELL + 1 + width <= 310
        and row * CELL + 1 + height <= 300
    ]
    if not every:
        assert found is None
        return
    best = min((left - x) ** 2 + (top - y) ** 2 for left, top in every)
    assert found is not None
    assert (found[0] - x) ** 2 + (found[1] - y) ** 2 <= best + 1e-6
