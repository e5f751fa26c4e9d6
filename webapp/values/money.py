"""Money: integer cents. Nothing is rounded but tax, and nothing is lost in a split."""

import re

from webapp.values.errors import BadInput
from webapp.values.typed import LONGEST, plain_text

MOST_CENTS = 10_000_000_00
"""Ten million: more than one entry of one self-built house can be, so more is a slip of the finger."""

_SIGNS = {"$": "USD", "€": "EUR", "£": "GBP"}
_MARK = r"(\$|€|£|[a-z]{3})?"
_TYPED = re.compile(rf"(-)?\s*{_MARK}\s*(-)?\s*([\d., ]*\d)\s*{_MARK}", re.ASCII)
_GROUPED = re.compile(r"(\d{1,3}(?:([, ])\d{3})(?:\2\d{3})*|\d*)(?:\.(\d{1,2}))?", re.ASCII)
_COMMA_DECIMALS = re.compile(r"(\d+),(\d{2})", re.ASCII)
_ONE_COMMA_DECIMAL = re.compile(r"(\d+),(\d)", re.ASCII)
_THREE_DECIMALS = re.compile(r"(\d+)\.(\d{2})(\d)", re.ASCII)
_DOTS_AND_COMMA = re.compile(r"(\d{1,3}(?:\.\d{3})+),(\d{2})", re.ASCII)


def parse_money(text: str, currency: str = "") -> int:
    """Cents. A comma is a decimal comma when exactly two digits follow a single one and there is no dot.

    With `currency` (a code of ISO 4217) an amount marked as another currency is refused. Raises BadInput.
    """
    plain = plain_text(text)
    found = _TYPED.fullmatch(plain) if len(plain) <= LONGEST else None
    if found is None or (found[1] and found[3]) or (found[2] and found[5]):
        raise BadInput("Write an amount such as 12.50 or 1,234.50.")
    _refuse_other_currency(found[2] or found[5], currency)
    cents = _read_cents(found[4].strip())
    if cents > MOST_CENTS:
        raise BadInput("That is more than 10 million. Write a smaller amount, and look for a slipped digit.")
    return -cents if found[1] or found[3] else cents


def _refuse_other_currency(mark: str | None, currency: str) -> None:
    if not mark or not currency:
        return
    if mark.upper() != currency and not (mark == "$" and currency.endswith("D")) and _SIGNS.get(mark) != currency:
        raise BadInput(f"This build counts in {currency}. Write the amount in {currency}.")


def _read_cents(number: str) -> int:
    if comma := _COMMA_DECIMALS.fullmatch(number):
        return int(comma[1] + comma[2])
    grouped = _GROUPED.fullmatch(number)
    if grouped is None or not (grouped[1] or grouped[3]):
        raise _unreadable_amount(number)
    whole = re.sub(r"\D", "", grouped[1], flags=re.ASCII)
    return int(whole or "0") * 100 + int((grouped[3] or "").ljust(2, "0"))


def _unreadable_amount(number: str) -> BadInput:
    likely: tuple[str, ...] = ()
    if three := _THREE_DECIMALS.fullmatch(number):
        below = int(three[1] + three[2])
        as_thousands = (three[1] + three[2] + three[3],) if len(three[1]) <= 3 and int(three[1]) else ()
        likely = (field_amount(below), field_amount(below + 1), *as_thousands)
        return BadInput("An amount has two decimals at most.", likely)
    if dots := _DOTS_AND_COMMA.fullmatch(number):
        likely = (f"{dots[1].replace('.', '')}.{dots[2]}",)
    elif one := _ONE_COMMA_DECIMAL.fullmatch(number):
        likely = (f"{one[1]}.{one[2]}0",)
    return BadInput("Write an amount such as 12.50 or 1,234.50.", likely)


def field_amount(cents: int) -> str:
    """`1234.50`: an amount as a field holds it."""
    return f"{cents // 100}.{cents % 100:02d}"


def show_amount(cents: int) -> str:
    """`1,234.50`; a negative one has a real minus sign."""
    whole, part = divmod(abs(cents), 100)
    return f"{'−' if cents < 0 else ''}{whole:,}.{part:02d}"


def show_money(cents: int, currency: str = "USD") -> str:
    """`USD 1,234.50`: the code comes first, because a dollar sign does not say whose."""
    return f"{currency} {show_amount(cents)}"
