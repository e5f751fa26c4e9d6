"""Numbers as people type and print them: `2½`, `2 1/2`, `2-1/2`, `2.5`, `2,5`, `¹⁵⁄₁₆`."""

import re
import unicodedata
from fractions import Fraction

LONGEST = 60
"""Nothing a builder types as one value is longer; a limit keeps absurd numbers from being computed at all."""

NUMBER = r"(?:\d+(?:\s+|\s*-\s*)\d+\s*/\s*\d+|\d+\s*/\s*\d+|\d+(?:[.,]\d+)?|\.\d+)"
"""A regular expression for one number as `read_number` takes it, to be used with `re.ASCII` on plain text."""

_MIXED = re.compile(r"(?:(\d+)(?:\s+|\s*-\s*))?(\d+)\s*/\s*(\d+)", re.ASCII)
_DECIMAL = re.compile(r"(\d*)[.,]?(\d*)", re.ASCII)
_MARKS = str.maketrans(
    dict.fromkeys("\u2019\u2018\u2032\u02b9\u02bc\u00b4\u0060", "'")
    | dict.fromkeys("\u201d\u201c\u2033\u02ba", '"')
    | dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2212", "-")
    | dict.fromkeys("\u2044\u2215", "/")
)


def plain_text(text: str) -> str:
    """`text` in lower case with ASCII digits, quotes, dashes and slashes, and single spaces.

    `74½` becomes `74 1/2`: without that space the compatibility form would read 741 halves.
    """
    out: list[str] = []
    before = ""
    for char in text:
        kind = unicodedata.decomposition(char).partition(" ")[0]
        starts_fraction = kind == "<fraction>" or (kind == "<super>" and not _is_raised(before))
        if starts_fraction and before.isdecimal():
            out.append(" ")
        plain = char.translate(_MARKS)
        out.append(unicodedata.normalize("NFKC", plain).translate(_MARKS))
        before = char
    return " ".join("".join(out).lower().split()).replace("''", '"')


def _is_raised(char: str) -> bool:
    return unicodedata.decomposition(char).startswith("<super>") if char else False


def has_doubtful_comma(text: str) -> bool:
    """Whether a comma could be a decimal comma or part a thousand: `1,890`, but not `0,890` or `1,89`."""
    return re.search(r"(?<![\d.,])[1-9]\d{0,2},\d{3}(?!\d)", text, re.ASCII) is not None


def read_number(text: str) -> Fraction | None:
    """The number in plain text, or None when it is not one or its comma is doubtful.

    Nor is it one when a fraction is not proper beside a whole number (`2 5/4`) or has zero beneath it (`3/0`).
    """
    text = text.strip()
    if len(text) > LONGEST or has_doubtful_comma(text):
        return None
    if mixed := _MIXED.fullmatch(text):
        return _mixed_number(mixed[1], int(mixed[2]), int(mixed[3]))
    decimal = _DECIMAL.fullmatch(text)
    if decimal is None or not (decimal[1] or decimal[2]):
        return None
    return Fraction(int(decimal[1] + decimal[2]), 10 ** len(decimal[2]))


def _mixed_number(whole: str | None, top: int, bottom: int) -> Fraction | None:
    if bottom == 0 or (whole is not None and top >= bottom):
        return None
    return int(whole or "0") + Fraction(top, bottom)
