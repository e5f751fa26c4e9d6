"""Amounts: read, shown, taxed and split in whole cents."""

import pytest

from webapp.values.errors import BadInput
from webapp.values.money import parse_money, show_amount, show_money


@pytest.mark.parametrize(
    ("typed", "cents"),
    [
        ("12", 1200),
        ("12.5", 1250),
        ("12.50", 1250),
        (".5", 50),
        ("0", 0),
        ("1,234.50", 123450),
        ("1,234", 123400),
        ("1,234,567.89", 123456789),
        ("1 234.50", 123450),
        ("$12.50", 1250),
        ("$ 12.50", 1250),
        ("12,50", 1250),
        ("1234,50", 123450),
        ("-3.20", -320),
        ("−3.20", -320),
        ("-$3.20", -320),
        ("$-3.20", -320),
        ("USD 1,234.50", 123450),
        ("12.50 usd", 1250),
        ("10,000,000.00", 1_000_000_000),
    ],
)
def test_an_amount_is_read_as_people_write_it(typed, cents):
    assert parse_money(typed) == cents


@pytest.mark.parametrize(
    "typed", ["", "twelve", "--3", "-$-3", "12.", "1,23,456", "1,234,50", "12.3.4", "1e3", "$12 USD", "٣", "9" * 70]
)
def test_what_is_no_amount_is_answered_with_an_example(typed):
    with pytest.raises(BadInput, match=r"^Write an amount such as 12\.50 or 1,234\.50\.$"):
        parse_money(typed)


@pytest.mark.parametrize(
    ("typed", "likely"),
    [
        ("12.505", ("12.50", "12.51", "12505")),
        ("0.005", ("0.00", "0.01")),
        ("12,5", ("12.50",)),
        ("1.234,50", ("1234.50",)),
    ],
)
def test_an_amount_that_can_be_read_two_ways_is_asked_about(typed, likely):
    with pytest.raises(BadInput) as caught:
        parse_money(typed)
    assert caught.value.likely == likely
    assert all(parse_money(value) >= 0 for value in likely)


@pytest.mark.parametrize("typed", ["10000000.01", "-10,000,000.01", "99999999999"])
def test_more_than_ten_million_is_refused(typed):
    with pytest.raises(BadInput, match="more than 10 million"):
        parse_money(typed)


def test_an_amount_marked_as_another_currency_is_refused_when_the_build_has_one():
    assert parse_money("$12.50", "USD") == parse_money("$12.50", "CAD") == parse_money("€12.50", "EUR") == 1250
    assert parse_money("12.50", "EUR") == 1250
    for typed in ("€12.50", "EUR 12.50", "12.50 CAD"):
        with pytest.raises(BadInput, match="counts in USD"):
            parse_money(typed, "USD")


@pytest.mark.parametrize(("cents", "shown"), [(123450, "1,234.50"), (5, "0.05"), (-320, "−3.20"), (0, "0.00")])
def test_an_amount_is_shown_with_two_decimals_and_a_real_minus_sign(cents, shown):
    assert show_amount(cents) == shown
    assert show_money(cents) == f"USD {shown}"


def test_the_currency_is_shown_by_its_code():
    """Three-letter codes of ISO 4217."""
    assert show_money(123450, "EUR") == "EUR 1,234.50"
