"""Boxes counted open, in the table, and found again: the difference is said with where to look."""

import pytest

from webapp.surfaces.rules.counting import Box, missing_words, table_words

BOXES = (
    Box(1, "E1 Receptacle", "58 in from NE"),
    Box(2, "E2 Switch", "100 in from NE"),
    Box(3, "E3 Light", "not measured"),
)


def test_nothing_is_missing_where_as_many_were_found():
    assert missing_words(3, 3, BOXES, ()) == ""
    assert missing_words(3, None, BOXES, ()) == ""
    assert missing_words(None, 3, BOXES, ()) == "", "without a count the table is what was there"


def test_the_box_that_was_not_ticked_is_named_with_its_place():
    assert missing_words(3, 2, BOXES, (1, 3)) == "3 open, 2 found: look near E2 Switch, 100 in from NE."


def test_without_ticks_each_of_the_table_is_named():
    words = missing_words(3, 2, BOXES, ())
    assert words.startswith("3 open, 2 found: look near E1 Receptacle, 58 in from NE; E2 Switch")
    many = tuple(Box(at, f"E{at}", "here") for at in range(20))
    assert missing_words(20, 19, many, ()).endswith("; 12 more of the table.")


def test_a_box_that_was_never_in_the_table_cannot_be_named():
    assert missing_words(4, 3, BOXES, (1, 2, 3)) == "4 open, 3 found: none of the table is left."


def test_more_found_than_there_were_is_said_too():
    assert "4 found: one was missed while it was open" in missing_words(3, 4, BOXES, ())


@pytest.mark.parametrize(
    ("before", "listed", "says"), [(3, 3, ""), (None, 3, ""), (4, 3, "never measured"), (3, 4, "twice")]
)
def test_the_count_and_the_table_are_held_against_each_other(before, listed, says):
    assert says in table_words(before, listed)
    assert bool(table_words(before, listed)) == bool(says)
