"""Spaces of a panel. Odd left, even right, and a two-pole breaker on every second number: common practice in North
America, no source; a row numbered on: common practice elsewhere, no source."""

from dataclasses import dataclass

import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.surfaces.rules.panel import read_spaces, same_space, show_spaces, taken, two_columns
from webapp.values.errors import BadInput


@dataclass(frozen=True)
class Line:
    code: str
    number: str
    poles: int = 1


@pytest.mark.parametrize(
    ("typed", "poles", "kept"),
    [
        ("7", 1, "7"),
        (" 07 ", 1, "7"),
        ("7-9", 2, "7-9"),
        ("7,9", 2, "7-9"),
        ("9 and 7", 2, "7-9"),
        ("7 – 8", 2, "7-8"),
        ("7-11", 3, "7-9-11"),
        ("7-9", 3, "7-8-9"),
        ("7-9-11", 3, "7-9-11"),
        ("7a", 1, "7A"),
        ("7A, 7B", 2, "7A-7B"),
    ],
)
def test_spaces_are_read_as_people_write_them(typed, poles, kept):
    assert show_spaces(read_spaces(typed, poles)) == kept
    assert read_spaces(kept, poles) == read_spaces(typed, poles), "what is kept reads back"


@pytest.mark.parametrize(
    ("typed", "poles", "sentence"),
    [
        ("seven", 1, "“seven” names no space"),
        ("-", 1, "names no space"),
        ("7-9", 1, "7 and 9: that is 2 spaces, and a breaker of 1 pole takes 1."),
        ("7", 2, "7: that is 1 space, and a breaker of 2 poles takes 2."),
        ("7-13", 2, "7 and 13 are not next to each other"),
        ("7-7", 2, "names one space twice"),
        ("0", 1, "from 1 to 200"),
        ("500", 1, "from 1 to 200"),
        ("7-13", 3, "that is 2 spaces"),
    ],
)
def test_what_names_no_space_for_its_breaker_is_said_in_a_sentence(typed, poles, sentence):
    with pytest.raises(BadInput) as refused:
        read_spaces(typed, poles)
    assert sentence in refused.value.sentence


def test_two_lines_are_not_in_one_space_but_two_halves_of_it_are_two():
    assert taken(read_spaces("9", 1), [Line("C01", "1"), Line("C07", "7-9", 2)]) == "Space 9 is taken by C07."
    assert taken(read_spaces("8", 1), [Line("C07", "7-9", 2)]) == ""
    assert same_space((7, "A"), (7, "")) and same_space((7, "A"), (7, "A"))
    assert not same_space((7, "A"), (7, "B"))
    assert taken(read_spaces("7", 1), [Line("OLD", "by the door"), Line("NONE", "")]) == "", "names no space"


def laid_out(lines):
    """Left and right of each row, as the code of a line, "-" for an empty space, None where one reaches down."""

    def shown(cell):
        return None if cell is None else f"{cell.spaces} {lines[cell.line].code if cell.line is not None else '-'}"

    return [(shown(row.left), shown(row.right)) for row in two_columns(lines)]


def test_the_spaces_lie_as_they_are_met_behind_the_door():
    lines = [Line("A", "1"), Line("P", "3-5", 2), Line("B", "6"), Line("C", "2")]
    assert laid_out(lines) == [("1 A", "2 C"), ("3-5 P", "4 -"), (None, "6 B")]
    assert two_columns(lines)[1].left.spans == 2
    assert laid_out([Line("A", "4")]) == [("1 -", "2 -"), ("3 -", "4 A")]
    assert two_columns([]) == ()


@pytest.mark.parametrize(
    "odd", [Line("H", "7A"), Line("R", "7-8", 2), Line("X", "1"), Line("W", "by the door"), Line("N", "")]
)
def test_what_cannot_lie_in_two_columns_leaves_a_plain_list(odd):
    assert two_columns([Line("A", "1"), odd]) == ()


@given(st.lists(st.integers(1, 60), unique=True, max_size=30))
def test_every_space_is_in_its_column_once(numbers):
    rows = two_columns([Line(str(number), str(number)) for number in numbers])
    found = [cell.spaces for row in rows for cell in (row.left, row.right)]
    assert found == [str(number) for number in range(1, 2 * len(rows) + 1)]
    filled = {cell.spaces for row in rows for cell in (row.left, row.right) if cell.line is not None}
    assert filled == {str(number) for number in numbers}
    assert len(rows) == -(-max(numbers, default=0) // 2)
