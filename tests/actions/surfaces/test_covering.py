"""Closing, opening up, letting go: each with its words, nothing ever taken away."""

from datetime import date

import pytest

from tests import builders
from webapp.surfaces import actions, store
from webapp.values.errors import BadInput

FEB_22 = date(2026, 2, 22)
EVIDENCE = [("Rough electrical passed", "the inspector", "Tue 3 Feb"), ("Boxes counted: 7 of 7", "me", "Sat 21 Feb")]


@pytest.fixture
def build(session):
    return builders.a_build(session)


@pytest.fixture
def east(session, build):
    return builders.a_surface(session, build)


def test_a_closing_keeps_what_it_rested_on_word_for_word(session, build, east):
    actions.mark_covered(session, east.row_id, FEB_22, "me", "board, three coats", EVIDENCE)
    cover = store.list_covers(session, build.row_id)[0]
    assert cover.evidence == tuple(EVIDENCE)
    assert (cover.covered_on, cover.layers, cover.opened_on) == (FEB_22, "board, three coats", None)
    assert store.get_surface(session, build.row_id, "E").covered_on == FEB_22


def test_a_closed_surface_is_not_closed_a_second_time(session, east):
    actions.mark_covered(session, east.row_id, FEB_22, "me", "board", EVIDENCE)
    with pytest.raises(BadInput, match="East wall was closed on 22 February 2026 already"):
        actions.mark_covered(session, east.row_id, date(2026, 2, 23), "me", "board", EVIDENCE)


def test_opened_up_it_is_open_and_its_first_closing_stays(session, build, east):
    actions.mark_covered(session, east.row_id, FEB_22, "me", "board", EVIDENCE)
    actions.open_again(session, east.row_id, date(2026, 3, 1), "a screw met the drain")
    assert store.get_surface(session, build.row_id, "E").covered_on is None
    actions.mark_covered(session, east.row_id, date(2026, 3, 8), "me", "board", EVIDENCE)
    covers = store.list_covers(session, build.row_id)
    assert [cover.covered_on for cover in covers] == [date(2026, 3, 8), FEB_22]
    assert covers[1].opened_why == "a screw met the drain"
    assert store.get_surface(session, build.row_id, "E").covered_on == date(2026, 3, 8)


@pytest.mark.parametrize(
    ("on", "why", "sentence"),
    [
        (date(2026, 3, 1), " ", "Write why it is opened up"),
        (date(2026, 2, 21), "a leak", "cannot have been opened before"),
    ],
)
def test_opening_up_needs_a_reason_and_a_day_that_can_be(session, east, on, why, sentence):
    actions.mark_covered(session, east.row_id, FEB_22, "me", "board", EVIDENCE)
    with pytest.raises(BadInput, match=sentence):
        actions.open_again(session, east.row_id, on, why)


def test_what_is_open_is_not_opened(session, east):
    with pytest.raises(BadInput, match="is not closed"):
        actions.open_again(session, east.row_id, FEB_22, "a leak")


def let_go(session, surface, why="no camera, last light", by="me", who="me"):
    actions.let_go(session, surface.row_id, "shot:20", "East open, slow pan", by, who, why, FEB_22)


def test_what_is_let_go_stays_listed_with_its_reason(session, build, east):
    let_go(session, east)
    lifted = store.list_lifted(session, build.row_id)[0]
    assert (lifted.node_key, lifted.what, lifted.why) == ("shot:20", "East open, slow pan", "no camera, last light")


def test_nothing_is_let_go_without_a_reason(session, build, east):
    with pytest.raises(BadInput, match="stays on record for ever"):
        let_go(session, east, why="  \n")
    assert store.list_lifted(session, build.row_id) == ()


def test_the_authority_has_a_name(session, east):
    with pytest.raises(BadInput, match="who at the authority"):
        let_go(session, east, by="authority", who=" ")


def test_the_first_reason_is_not_written_over(session, build, east):
    let_go(session, east)
    with pytest.raises(BadInput, match="let go on 22 February 2026 already: no camera, last light"):
        let_go(session, east, why="another reason")
    assert len(store.list_lifted(session, build.row_id)) == 1
