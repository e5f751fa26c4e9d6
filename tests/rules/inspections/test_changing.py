"""Changes from what was approved: what has to be asked, what counts no more, which trade an inspection is of."""

from dataclasses import dataclass
from datetime import UTC, date, datetime

import pytest

from webapp.inspections.rules.changing import Move, earlier_states, has_to_be_asked, is_back
from webapp.inspections.rules.facts import ReopenedFacts
from webapp.inspections.rules.trades import is_work_of, looks_at

W, N, E = 1, 2, 3
AT = datetime(2026, 5, 16, 12, tzinfo=UTC)


@dataclass(frozen=True)
class Thing:
    id: int
    surface_id: int
    replaced_by_id: int | None = None
    x_nm: int | None = 10
    y_nm: int | None = 20


ONCE_MOVED = (Thing(1, W, 2), Thing(2, N))
TWICE_MOVED = (Thing(1, W, 2), Thing(2, N, 3), Thing(3, E))


def to(item: int, surface: int, x: int = 10) -> Move:
    return Move(item, surface, "", x, 20)


def test_the_states_before_are_told_the_last_one_first():
    assert [one.id for one in earlier_states(3, TWICE_MOVED)] == [2, 1]
    assert earlier_states(1, TWICE_MOVED) == ()
    ring = (Thing(1, W, 2), Thing(2, N, 1))
    assert len(earlier_states(1, ring)) == 2, "a damaged record does not hold it up"


def test_back_is_only_the_very_first_place():
    assert is_back(to(2, W), ONCE_MOVED)
    assert is_back(to(3, W), TWICE_MOVED)
    assert not is_back(to(3, N), TWICE_MOVED), "a place in between may have been refused"
    assert not is_back(to(2, W, x=11), ONCE_MOVED)
    assert not is_back(to(1, W), ONCE_MOVED)


@pytest.mark.parametrize(
    ("move", "changed", "approved", "asked"),
    [
        (to(2, E), (), False, False),
        (to(2, E), (), True, True),
        (to(2, E), (1,), False, True),
        (to(2, W), (1,), False, False),
        (to(2, W), (1,), True, True),
    ],
)
def test_what_was_changed_once_is_asked_about_until_it_is_back(move, changed, approved, asked):
    assert has_to_be_asked(move, ONCE_MOVED, changed, approved=approved) is asked


@pytest.mark.parametrize(
    ("inspection", "place", "day", "hour", "over"),
    [
        (7, W, date(2026, 5, 15), 23, True),
        (7, W, date(2026, 5, 16), 11, True),
        (7, W, date(2026, 5, 16), 13, False),
        (7, W, date(2026, 5, 17), 0, False),
        (7, N, date(2026, 5, 15), 9, False),
        (8, W, date(2026, 5, 15), 9, False),
        (7, None, date(2026, 5, 15), 9, True),
    ],
)
def test_what_was_said_before_the_change_counts_no_more_on_the_day_itself_the_hour_decides(
    inspection, place, day, hour, over
):
    reopened = ReopenedFacts(1, 7, W, date(2026, 5, 16), AT)
    said_at = datetime(2026, 5, 16, hour, tzinfo=UTC)
    assert reopened.overtakes(inspection, place, day, said_at) is over


@pytest.mark.parametrize(
    ("name", "service", "fits"),
    [
        ("Rough plumbing, test on", "drain", True),
        ("Rough plumbing", "water", True),
        ("Rough electrical", "water", False),
        ("Rough electrical", "electric", True),
        ("Framing", "framing", True),
        ("Insulation", "electric", False),
        ("Elektro Rohbau", "electric", False),
        ("Anything", "other", False),
    ],
)
def test_the_trade_is_told_by_words_of_the_name_which_is_common_practice_without_a_source(name, service, fits):
    assert looks_at(name, service) is fits


def test_done_work_is_of_a_trade_by_its_kind():
    assert is_work_of("plumbing", "vent") and is_work_of("wiring", "electric")
    assert not is_work_of("board", "vent") and not is_work_of("plumbing", "unheard of")
