"""The list to begin with against the model code: clause numbers and stages of IRC chapter 1, R109.1 (as published by an
authority that quotes it: foundation 1.1; rough plumbing, mechanical, gas and electrical 1.2, before the framing
inspection; floodplain 1.3; frame and masonry 1.4, after the roughs; other inspections 1.5; fire-rated construction
1.5.1; final 1.6).
"""

import pytest

from webapp.inspections.rules.starting import LOCAL, STARTING, Known, guessed_permit, likely, short_name

IRC = {
    "foundation": "R109.1.1",
    "electrical": "R109.1.2",
    "plumbing": "R109.1.2",
    "mechanical": "R109.1.2",
    "gas": "R109.1.2",
    "flood": "R109.1.3",
    "framing": "R109.1.4",
    "fire_rated": "R109.1.5.1",
    "final": "R109.1.6",
}
LINE = {line.key: line for line in STARTING}
PLACE = {line.key: at for at, line in enumerate(STARTING)}


def test_the_clauses_are_those_of_the_model_code_and_everything_else_says_that_it_is_local():
    assert {line.key: line.clause for line in STARTING if line.clause != LOCAL} == IRC
    assert {line.source for line in STARTING if line.key not in IRC} == {"local rule"}


def test_the_order_is_the_usual_one():
    clauses = [tuple(map(int, line.clause[1:].split("."))) for line in STARTING if line.clause != LOCAL]
    assert clauses == sorted(clauses)
    for rough in ("electrical", "plumbing", "mechanical", "gas"):
        assert PLACE[rough] < PLACE["framing"], "R109.1.2: prior to the framing inspection"
    assert PLACE["framing"] < PLACE["insulation"] < PLACE["board"] < PLACE["final"]
    assert STARTING[-1].key == "final"


def test_a_published_local_sequence_runs_the_same_way():
    """One county's list for a new house: foundation, framing and roughs, insulation, board nailing, final."""
    there = ("foundation", "framing", "insulation", "board", "final")
    assert sorted(there, key=PLACE.__getitem__) == list(there)


def test_what_only_some_places_ask_for_is_not_ticked():
    for key in ("flood", "fire_rated", "gas", "nailing"):
        assert not likely(LINE[key], Known())
    for key in ("electrical", "framing", "final"):
        assert likely(LINE[key], Known())


def test_what_is_on_record_makes_a_line_likely_or_not():
    walls = Known(surfaces={"wall", "ceiling"}, work={"wiring", "board"}, permits=("Electrical permit",))
    assert likely(LINE["electrical"], walls)
    assert not likely(LINE["plumbing"], walls)
    assert not likely(LINE["trench"], walls), "no trench is drawn"
    assert likely(LINE["gas"], Known(surfaces={"wall"}, services={"gas"}))


def test_the_permit_is_guessed_only_where_one_speaks_of_the_trade():
    permits = ((1, "Building permit"), (2, "Electrical permit"))
    assert guessed_permit(LINE["electrical"], permits) == 2
    assert guessed_permit(LINE["framing"], permits) == 1
    assert guessed_permit(LINE["plumbing"], permits) is None
    assert guessed_permit(LINE["electrical"], ((1, "Permit"),)) is None, "a single permit is not taken for granted"


@pytest.mark.parametrize(
    ("name", "taken", "code"),
    [
        ("Rough electrical", (), "ROUGHELECTRI"),
        ("Rough electrical", ("ROUGHELECTRI",), "ROUGHELECTR2"),
        ("木", (), "VISIT"),
    ],
)
def test_short_names_are_made_and_differ(name, taken, code):
    assert short_name(name, taken) == code
