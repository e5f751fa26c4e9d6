"""What of hours and money is told."""

import pytest

from webapp.episodes.rules.facts import Hours
from webapp.episodes.rules.redaction import hours_words, rounded_cents, spend_words


@pytest.mark.parametrize(
    ("cents", "near"),
    [(0, 0), (49_99, 0), (50_00, 100_00), (149_99, 100_00), (150_00, 200_00), (-150_00, -200_00), (-49_99, 0)],
)
def test_money_is_rounded_to_the_nearest_hundred_a_half_away_from_zero(cents, near):
    assert rounded_cents(cents) == near


@pytest.mark.parametrize(
    ("cents", "shown", "words"),
    [
        (123_450, "hidden", ""),
        (0, "exact", ""),
        (123_450, "exact", "USD 1,234.50"),
        (123_450, "rounded", "about USD 1,200"),
        (40_00, "rounded", "less than USD 100"),
    ],
)
def test_spend_is_hidden_rounded_or_exact(cents, shown, words):
    assert spend_words(cents, "USD", shown) == words


def test_hours_are_told_by_whose_hands_they_were():
    assert hours_words(Hours(3, 90, 60, 30, 480), shown=True) == (
        "1½ h of my own",
        "1 h of unpaid help",
        "30 min of paid help",
        "8 h hired",
    )
    assert hours_words(Hours(3, 90), shown=False) == ()
    assert hours_words(Hours(), shown=True) == ()
