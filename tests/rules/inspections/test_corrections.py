"""When a correction is cleared, and by whom."""

from dataclasses import replace
from datetime import date

import pytest

from tests.rules.inspections.test_results import NORTH, SOUTH, a_result
from webapp.inspections.rules.corrections import clearing, is_cleared, what_is_owed
from webapp.inspections.rules.facts import CorrectionFacts
from webapp.inspections.rules.kinds import ClearsBy, CorrectionState
from webapp.inspections.rules.results import standing

PLATES = CorrectionFacts(
    id=1,
    result_id=1,
    inspection_id=1,
    visit_id=1,
    surface_id=SOUTH,
    item_id=None,
    number=1,
    words="Plates on three studs",
    place="",
    form="written",
    rule_cited="",
    clears_by="re-visit",
    state="open",
    done_on=None,
    cleared_on=None,
    cleared_by="",
    note="",
    before="",
    after="",
)
FAILED = a_result(1, "failed", SOUTH, day=7)
SEEN_AGAIN = a_result(2, "passed", SOUTH, day=12)


def test_a_later_pass_of_the_same_surface_clears_what_was_to_be_seen_again():
    found = clearing(PLATES, [FAILED, SEEN_AGAIN])
    assert (found.by, found.on) == ("the inspector, visit of 12 May 2026", date(2026, 5, 12))


@pytest.mark.parametrize("state", ["withdrawn", "replaced"])
def test_taking_that_pass_back_opens_the_correction_again(state):
    assert not is_cleared(PLATES, [FAILED, replace(SEEN_AGAIN, state=state)])


@pytest.mark.parametrize(
    "other",
    [
        a_result(2, "passed", NORTH, day=12),
        a_result(2, "passed", SOUTH, day=12, inspection_id=2),
        a_result(2, "passed, small items on my honour", SOUTH, day=12),
        a_result(2, "passed", SOUTH, day=5),
        a_result(2, "passed", SOUTH, day=12, visit_id=1),
    ],
    ids=["another wall", "another inspection", "small items", "an earlier visit", "the same visit"],
)
def test_no_other_result_clears_it(other):
    assert not is_cleared(PLATES, [FAILED, other])


def test_a_pass_of_the_whole_building_clears_it():
    assert is_cleared(PLATES, [FAILED, a_result(2, "passed", None, day=12)])


@pytest.mark.parametrize("clears_by", ["own word", "picture sent"])
def test_a_visit_does_not_clear_what_clears_another_way(clears_by):
    assert not is_cleared(replace(PLATES, clears_by=clears_by), [FAILED, SEEN_AGAIN])


def test_a_cleared_one_stays_cleared_and_says_by_whom():
    cleared = replace(PLATES, state="cleared", cleared_by="the inspector, by message", cleared_on=date(2026, 5, 9))
    assert clearing(cleared, [FAILED]).by == "the inspector, by message"


def test_a_mistyped_morning_pass_put_right_in_the_evening_clears_nothing_of_the_afternoon():
    mistyped = a_result(1, "part passed", SOUTH, state="replaced", replaced_by_id=3)
    afternoon = a_result(2, "failed", SOUTH)
    put_right = a_result(3, "passed", SOUTH, visit_id=1)
    of_afternoon = replace(PLATES, result_id=2, visit_id=2)
    assert not is_cleared(of_afternoon, [mistyped, afternoon, put_right])


def test_small_items_free_the_surface_yet_stay_owed_on_it():
    on_honour = replace(PLATES, clears_by="own word")
    found = standing(SOUTH, [a_result(1, "passed, small items on my honour", SOUTH)], [on_honour])
    assert found.passed
    assert found.owed == (on_honour,)


def test_a_correction_of_one_wall_is_not_owed_on_another():
    assert standing(NORTH, [FAILED], [PLATES]).owed == ()


@pytest.mark.parametrize("clears_by", list(ClearsBy))
@pytest.mark.parametrize("state", [CorrectionState.OPEN, CorrectionState.DONE, CorrectionState.SENT])
def test_every_open_correction_says_what_it_waits_for(clears_by, state):
    assert what_is_owed(replace(PLATES, clears_by=clears_by.value, state=state.value)).endswith(".")
