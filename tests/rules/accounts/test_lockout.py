"""Waiting after wrong passwords. The numbers are ours (common practice, no source): slow, never shut for good."""

from datetime import UTC, datetime, timedelta

import pytest

from webapp.accounts.rules.lockout import counted_as, is_this_machine, seconds_left, show_wait, wait_after

NOON = datetime(2026, 5, 16, 12, 0, tzinfo=UTC)


def tries(count: int, last: datetime = NOON) -> list[datetime]:
    return [last - timedelta(seconds=30 * back) for back in range(count)]


@pytest.mark.parametrize(
    ("wrong", "seconds"), [(0, 0), (1, 0), (4, 0), (5, 2), (6, 4), (7, 8), (13, 512), (14, 900), (15, 900), (9000, 900)]
)
def test_four_slips_are_free_and_then_the_wait_doubles_up_to_a_quarter_of_an_hour(wrong, seconds):
    assert wait_after(wrong) == seconds


def test_the_wait_never_gets_shorter_with_more_wrong_tries():
    waits = [wait_after(count) for count in range(60)]
    assert waits == sorted(waits)


def test_the_wait_counts_from_the_last_wrong_try():
    assert seconds_left(tries(6), NOON) == 4
    assert seconds_left(tries(6), NOON + timedelta(seconds=1)) == 3
    assert seconds_left(tries(6), NOON + timedelta(seconds=3, milliseconds=1)) == 1, "rounded up, never down"
    assert seconds_left(tries(6), NOON + timedelta(seconds=4)) == 0


def test_tries_of_more_than_an_hour_ago_are_forgotten():
    assert seconds_left(tries(9, NOON - timedelta(hours=1)), NOON) == 0
    assert seconds_left([], NOON) == 0


def test_somebody_with_a_whole_network_counts_as_one():
    """RFC 4291, 2.5.4: 64 bits of network, 64 of interface; RFC 6177, 2: one site gets at least one such network."""
    assert counted_as("2001:db8:1:2:3:4:5:6") == counted_as("2001:db8:1:2:ffff::1") == "2001:db8:1:2::/64"
    assert counted_as("2001:db8:1:3::1") != counted_as("2001:db8:1:2::1")
    assert counted_as("::ffff:192.0.2.7") == counted_as("192.0.2.7") == "192.0.2.7"
    assert counted_as("fe80::1%eth0") == "fe80::/64"
    assert len(counted_as("x" * 500)) == 64


@pytest.mark.parametrize(
    ("address", "here"),
    [
        ("127.0.0.1", True),
        ("127.8.8.8", True),
        ("::1", True),
        ("::ffff:127.0.0.1", True),
        ("192.168.1.20", False),
        ("0.0.0.0", False),
        ("testclient", False),
    ],
)
def test_only_loopback_is_this_machine(address, here):
    """RFC 1122, 3.2.1.3 (127/8) and RFC 4291, 2.5.3 (::1)."""
    assert is_this_machine(address) is here


def test_a_wait_reads_as_words():
    assert [show_wait(seconds) for seconds in (1, 2, 59, 60, 61, 900)] == [
        "1 second",
        "2 seconds",
        "59 seconds",
        "1 minute",
        "2 minutes",
        "15 minutes",
    ]
