"""Which copies are kept, when the next is due, and how they read."""

from datetime import UTC, datetime, timedelta

import pytest

from webapp.backup.rules.keeping import CopyFacts, copy_name, is_due, read_copy_name, show_age, show_size, to_let_go

NOON = datetime(2026, 5, 16, 12, 0, tzinfo=UTC)


def daily(days_ago: int) -> CopyFacts:
    made_at = NOON - timedelta(days=days_ago)
    return CopyFacts(copy_name(made_at, daily=True), made_at, 1000, daily=True)


def by_hand(days_ago: int) -> CopyFacts:
    made_at = NOON - timedelta(days=days_ago)
    return CopyFacts(copy_name(made_at, daily=False), made_at, 1000, daily=False)


def kept_days(copies: list[CopyFacts], keep: int) -> list[str]:
    gone = to_let_go(copies, keep)
    return [f"{copy.made_at:%m-%d}" for copy in copies if copy.name not in gone]


def test_the_newest_daily_copies_and_the_first_of_each_month_are_kept():
    year = [daily(days) for days in range(60)]
    assert kept_days(year, 3) == ["05-16", "05-15", "05-14", "05-01", "04-01", "03-18"]


def test_a_copy_made_by_hand_is_never_let_go():
    assert to_let_go([by_hand(days) for days in range(400)], keep=0) == ()


def test_copies_by_hand_do_not_push_daily_ones_out():
    copies = [daily(days) for days in range(5)] + [by_hand(days) for days in range(30)]
    assert to_let_go(copies, keep=5) == ()


def test_with_nothing_to_keep_the_first_of_the_month_stays():
    assert kept_days([daily(days) for days in range(10)], keep=0) == ["05-07"]


def test_letting_go_twice_lets_nothing_more_go():
    copies = [daily(days) for days in range(100)]
    left = [copy for copy in copies if copy.name not in to_let_go(copies, 4)]
    assert to_let_go(left, 4) == ()


@pytest.mark.parametrize(
    ("newest", "changed", "due"),
    [
        (None, NOON, True),
        (NOON - timedelta(hours=23), NOON, False),
        (NOON - timedelta(hours=24), NOON, True),
        (NOON - timedelta(days=9), NOON - timedelta(days=10), False),
    ],
)
def test_a_daily_copy_is_due_after_a_day_in_which_something_was_written(newest, changed, due):
    assert is_due(newest, changed, NOON) is due


def test_a_name_tells_age_and_kind_and_other_names_tell_nothing():
    facts = read_copy_name(copy_name(NOON, daily=True), 7)
    assert facts == CopyFacts("studbay-20260516T120000Z-daily.zip", NOON, 7, daily=True)
    for other in ("studbay-20261399T120000Z-daily.zip", "../studbay-20260516T120000Z-whole.zip", "holiday.zip", ""):
        assert read_copy_name(other) is None


def test_sizes_and_ages_read_plainly():
    assert [show_size(size) for size in (0, 1, 840_000, 2_440_000, 13_900_000, 1_250_000_000)] == [
        "0 kB",
        "1 kB",
        "840 kB",
        "2.4 MB",
        "13 MB",
        "1.2 GB",
    ]
    ages = (timedelta(0), timedelta(minutes=50), timedelta(hours=5), timedelta(days=5), timedelta(days=99))
    assert [show_age(NOON - age, NOON) for age in ages] == [
        "just now",
        "50 minutes ago",
        "5 hours ago",
        "5 days ago",
        "on 6 February 2026",
    ]
