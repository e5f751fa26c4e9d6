"""Which result counts, what it frees and what it leaves owed."""

from datetime import UTC, date, datetime, timedelta

import pytest

from webapp.inspections.rules.facts import InspectionFacts, ResultFacts
from webapp.inspections.rules.kinds import ResultKind
from webapp.inspections.rules.order import place_in_order
from webapp.inspections.rules.results import EFFECTS, NOT_YET, Standing, current_result, standing, standings, summary

MORNING = datetime(2026, 5, 7, 9, 0, tzinfo=UTC)
NORTH, SOUTH = 1, 3


def a_result(
    number: int, kind: str = "passed", surface: int | None = NORTH, day: int = 7, **more: object
) -> ResultFacts:
    values = {
        "visit_id": number,
        "inspection_id": 1,
        "part": "",
        "evidence": "my note",
        "state": "current",
        "changed_on": None,
        "changed_why": "",
        "changed_by": "",
        "replaced_by_id": None,
        "recorded_at": MORNING + timedelta(minutes=number),
        "changed_who": "",
        "photo": "",
        "letter": "",
    } | more
    return ResultFacts(id=number, surface_id=surface, kind=kind, day=date(2026, 5, day), **values)


def an_inspection(surfaces: tuple[int, ...] = (NORTH, SOUTH)) -> InspectionFacts:
    return InspectionFacts(
        1,
        1,
        1,
        "IREL",
        "Rough electrical",
        "",
        2,
        "15:30",
        None,
        "inspector",
        "insulation",
        "my guess",
        True,
        True,
        surface_ids=surfaces,
    )


@pytest.mark.parametrize("kind", list(ResultKind))
def test_only_a_pass_with_or_without_small_items_frees_the_surface(kind):
    found = standing(NORTH, [a_result(1, kind.value)], [])
    assert found.passed is (kind in {ResultKind.PASSED, ResultKind.SMALL_ITEMS})
    assert found.passed or EFFECTS[kind].owed, "what does not free says what stays owed"


def test_what_was_never_looked_at_does_not_free():
    found = standing(NORTH, [], [])
    assert (found.passed, found.words, found.day) == (False, "not looked at yet", None)


def test_the_newest_visit_counts_whatever_was_recorded_last():
    late_note = a_result(9, "failed", day=5)
    assert current_result([a_result(1, day=7), late_note], NORTH).kind == "passed"


def test_of_one_day_what_was_recorded_last_counts():
    assert current_result([a_result(1), a_result(2, "failed")], NORTH).kind == "failed"


def test_a_mistyped_result_put_right_does_not_overtake_what_was_said_later_that_day():
    mistyped = a_result(1, "part passed", state="replaced", replaced_by_id=3)
    afternoon = a_result(2, "failed")
    put_right = a_result(3, "passed")
    assert current_result([mistyped, afternoon, put_right], NORTH).id == afternoon.id


def test_a_withdrawn_result_does_not_count_and_the_one_before_it_does():
    first, taken_back = a_result(1, "failed", day=4), a_result(2, "passed", state="withdrawn")
    assert current_result([first, taken_back], NORTH).kind == "failed"
    assert not standing(NORTH, [taken_back], []).passed


def test_not_looked_at_takes_nothing_back():
    assert standing(NORTH, [a_result(1, day=4), a_result(2, "not looked at")], []).passed


def test_seen_at_the_next_visit_takes_an_earlier_pass_back():
    assert not standing(NORTH, [a_result(1, day=4), a_result(2, "seen at the next visit")], []).passed


def test_a_result_without_a_surface_is_about_every_surface():
    found = standings(an_inspection(), [a_result(1, surface=None)], [])
    assert all(each.passed for each in found.values())


def test_a_result_for_one_surface_says_nothing_of_another():
    found = standings(an_inspection(), [a_result(1, surface=NORTH)], [])
    assert (found[NORTH].passed, found[SOUTH].passed) == (True, False)


def test_a_final_is_about_the_whole_building():
    found = standings(an_inspection(()), [a_result(1, surface=None)], [])
    assert list(found) == [None]
    assert found[None].passed


def test_a_result_of_another_inspection_counts_for_nothing_here():
    assert not standings(an_inspection(), [a_result(1, inspection_id=2)], [])[NORTH].passed


@pytest.mark.parametrize(
    ("evidence", "photo", "by"),
    [
        ("card signed", "", "my note"),
        ("card signed", "ab12", "the inspector, card signed"),
        ("my note", "ab12", "my note"),
    ],
)
def test_without_a_picture_of_the_paper_a_result_is_my_note(evidence, photo, by):
    assert standing(NORTH, [a_result(1, evidence=evidence, photo=photo)], []).by == by


PASSED = Standing("passed", passed=True, kind=ResultKind.PASSED)
SMALL = Standing("passed, small items on my honour", passed=True, kind=ResultKind.SMALL_ITEMS)
FAILED = Standing("failed", kind=ResultKind.FAILED)
NEXT = Standing("seen at the next visit", kind=ResultKind.SEEN_NEXT)


@pytest.mark.parametrize(
    ("by_place", "words"),
    [
        ({"N": PASSED, "E": PASSED, "S": FAILED, "W": PASSED}, "Part passed: all but S"),
        ({"N": PASSED, "E": NOT_YET, "S": FAILED, "W": NEXT}, "Part passed: N"),
        ({"N": PASSED, "E": PASSED}, "Passed"),
        ({"N": PASSED, "E": SMALL}, "Passed, small items on E"),
        ({"W": FAILED, "C": FAILED}, "Failed"),
        ({"N": NOT_YET, "W": FAILED, "C": FAILED}, "Failed: W and C"),
        ({"N": NOT_YET, "C": NEXT}, "Seen at the next visit: C"),
        ({"N": NOT_YET, "C": NOT_YET}, "Not looked at yet"),
        ({"whole building": NOT_YET}, "Not looked at yet"),
    ],
)
def test_one_line_says_where_an_inspection_stands(by_place, words):
    assert summary(by_place) == words


@pytest.mark.parametrize("replaced_by", [{1: 1}, {1: 2, 2: 1}, {1: 2, 2: 3, 3: 2}])
def test_results_that_replace_each_other_in_a_ring_still_have_an_order(replaced_by):
    results = [a_result(number, replaced_by_id=replaced_by.get(number)) for number in (1, 2, 3)]
    order = place_in_order(results)
    assert set(order) == {1, 2, 3}
    assert current_result(results, NORTH) in results


def test_a_pass_that_was_passed_on_frees_nothing_until_its_card_is_there():
    word = a_result(1, evidence="their word", signed_by="electrician")
    found = standing(NORTH, [word], [])
    assert (found.passed, found.by, found.word) == (False, "the electrician’s word", word)
    assert found.words == "passed by word, no card or report yet"
    card = a_result(1, evidence="card signed", photo="ab", signed_by="electrician")
    assert standing(NORTH, [card], []).passed
    assert standing(NORTH, [a_result(1, evidence="their word", paper_id=4)], []).passed, "a report among the papers"


def test_a_picture_of_the_message_is_still_only_a_word():
    assert not standing(NORTH, [a_result(1, evidence="their word", photo="ab")], []).passed


def test_a_word_takes_no_pass_back_but_a_fail_by_word_holds():
    card = a_result(1, evidence="card signed", photo="ab", day=5)
    assert standing(NORTH, [card, a_result(2, evidence="their word")], []).by == "the inspector, card signed"
    assert standing(NORTH, [card, a_result(2, "failed", evidence="their word")], []).kind == ResultKind.FAILED


def test_after_a_fail_a_word_waits_for_its_card_and_a_later_fail_ends_the_waiting():
    failed, word = a_result(1, "failed", day=5), a_result(2, evidence="their word", day=6)
    assert standing(NORTH, [failed, word], []).word == word
    assert standing(NORTH, [failed, word, a_result(3, "failed", day=8)], []).word is None


def test_who_signed_is_said_with_the_paper():
    found = standing(NORTH, [a_result(1, evidence="card signed", photo="ab", signed_by="stand-in")], [])
    assert found.by == "the stand-in, card signed"
