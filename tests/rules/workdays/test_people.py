"""Names: read from one field, and found in a text that is to go out."""

from webapp.workdays.rules.people import named_in, names_of, perhaps_named_in


def test_names_are_parted_by_commas_and_ands():
    assert names_of("Kim, Lee and  Robin Poole; Sam & Kim") == ("Kim", "Lee", "Robin Poole", "Sam")
    assert names_of("Sandy Anders") == ("Sandy Anders",)
    assert names_of(" , ") == ()


def test_a_name_is_found_whole_and_as_it_was_written():
    assert named_in(("Kim", "Lee", "Sam"), "Kimberlite, on the lee side. Sam’s lift.") == ("Sam",)
    assert named_in(("my neighbour",), "my neighbour came") == ()
    assert named_in(("J. Poole (carpenter)",), "Thanks to J. Poole (carpenter).") == ("J. Poole (carpenter)",)


def test_a_first_name_is_a_perhaps_and_not_where_the_whole_name_stands():
    assert perhaps_named_in(("Robin Poole", "Kim"), "Robin and Kim") == ("Robin",)
    assert perhaps_named_in(("Robin Poole",), "Robin Poole") == ()
