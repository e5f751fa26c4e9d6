"""Lengths: integer nanometres, typed and shown as feet, inches and fractions or as metric.

The inch is exactly 25.4 mm (international yard and pound agreement, 1959; NIST Handbook 44, Appendix C), so a
sixty-fourth of an inch is exactly 396 875 nm: nanometres hold every mark on a tape without rounding.
"""

import re
from fractions import Fraction
from functools import lru_cache

from webapp.values.errors import BadInput
from webapp.values.rounding import decimal_text, half_up
from webapp.values.typed import LONGEST, NUMBER, has_doubtful_comma, plain_text, read_number

NM_PER_INCH = 25_400_000
NM_PER_FOOT = 12 * NM_PER_INCH
NM_PER_MM = 1_000_000
NM_PER_CM = 10 * NM_PER_MM
NM_PER_M = 1_000 * NM_PER_MM

UNITS = ("ft-in", "in", "mm", "cm", "m")
"""The units a build can use; `ft-in` reads a bare number as inches."""

_LONGEST_NM = 10_000 * NM_PER_M
_NM_PER_UNIT = {"ft-in": NM_PER_INCH, "in": NM_PER_INCH, "mm": NM_PER_MM, "cm": NM_PER_CM, "m": NM_PER_M}
_EXAMPLES = {
    "ft-in": "6' 2-1/2\" or 74.5 in",
    "in": "74-1/2 or 6' 2-1/2\"",
    "mm": "1890 or 1.89 m",
    "cm": "189 or 1.89 m",
    "m": "1.89 or 1890 mm",
}
_MARKS = {
    '"': NM_PER_INCH,
    "inches": NM_PER_INCH,
    "inch": NM_PER_INCH,
    "in.": NM_PER_INCH,
    "in": NM_PER_INCH,
    "millimetres": NM_PER_MM,
    "millimeters": NM_PER_MM,
    "mm": NM_PER_MM,
    "centimetres": NM_PER_CM,
    "centimeters": NM_PER_CM,
    "cm": NM_PER_CM,
    "metres": NM_PER_M,
    "meters": NM_PER_M,
    "metre": NM_PER_M,
    "meter": NM_PER_M,
    "m": NM_PER_M,
}
_FEET = re.compile(
    rf"({NUMBER})\s*(?:'|feet|foot|ft\.?)(?:(?:\s*-\s*|,\s+|\s*)({NUMBER})\s*(?:\"|inches|inch|in\.?)?)?",
    re.ASCII,
)
_SINGLE = re.compile(rf"({NUMBER})\s*({'|'.join(re.escape(mark) for mark in _MARKS)})?", re.ASCII)
_TWO_BARE = re.compile(r"(\d+)(?:\s*-\s*|\s+)(\d+)", re.ASCII)


def parse_length(text: str, unit: str) -> int:
    """Nanometres. `unit` is the build's unit for a bare number, one of `UNITS`.

    Decimals are rounded to the nearest nanometre; fractions never are: one that is not whole is refused.
    Raises BadInput with examples fitting the unit; ValueError when `unit` is not one of ours.
    """
    bare = _NM_PER_UNIT.get(unit)
    if bare is None:
        raise ValueError(f"{unit!r} is not one of {UNITS}")
    plain = plain_text(text)
    if len(plain) > LONGEST:
        raise _unreadable(unit)
    if has_doubtful_comma(plain):
        raise _doubtful_comma(plain, unit)
    sign, body = (-1, plain[1:].lstrip()) if plain.startswith("-") else (1, plain)
    nm = _read_feet(body, sign, unit)
    if nm is None:
        nm = _read_single(body, sign, bare, unit)
    return sign * _whole_nm(nm, "/" in body)


def _unreadable(unit: str) -> BadInput:
    return BadInput(f"Write a length such as {_EXAMPLES[unit]}.")


def _doubtful_comma(plain: str, unit: str) -> BadInput:
    """Asks which of both readings was meant; what is a length in neither, is no length."""
    likely = tuple(text for text in (plain.replace(",", ""), plain.replace(",", ".")) if _is_length(text, unit))
    if not likely:
        return _unreadable(unit)
    return BadInput(f"The comma in {plain} can be read two ways. Did you mean {' or '.join(likely)}?", likely)


def _is_length(text: str, unit: str) -> bool:
    try:
        parse_length(text, unit)
    except BadInput:
        return False
    return True


def _read_feet(body: str, sign: int, unit: str) -> Fraction | None:
    """Nanometres of `6' 2-1/2"`, or None when there is no foot mark in it."""
    found = _FEET.fullmatch(body)
    if found is None:
        return None
    feet = read_number(found[1])
    inches = read_number(found[2]) if found[2] else Fraction(0)
    if feet is None or inches is None or (found[2] and feet.denominator != 1):
        raise _unreadable(unit)
    nm = feet * NM_PER_FOOT + inches * NM_PER_INCH
    if inches >= 12:
        raise _did_you_mean("A foot has 12 inches.", nm, sign)
    return nm


def _read_single(body: str, sign: int, bare: int, unit: str) -> Fraction:
    """Nanometres of `74 1/2 in`, `1,89 m` or a bare number."""
    found = _SINGLE.fullmatch(body)
    number = read_number(found[1]) if found else None
    if found is None or number is None:
        pair = _TWO_BARE.fullmatch(body)
        if pair and bare == NM_PER_INCH and int(pair[2]) < 12:
            nm = Fraction(int(pair[1]) * NM_PER_FOOT + int(pair[2]) * NM_PER_INCH)
            raise _did_you_mean("Write feet and inches with their marks.", nm, sign)
        raise _unreadable(unit)
    return number * (_MARKS[found[2]] if found[2] else bare)


def _did_you_mean(sentence: str, nm: Fraction, sign: int) -> BadInput:
    if nm > _LONGEST_NM:
        return _too_long()
    likely = field_length(sign * half_up(nm), "ft-in")
    return BadInput(f"{sentence} Did you mean {likely}?", (likely,))


def _too_long() -> BadInput:
    return BadInput("That is longer than 10 km. Write a shorter length, and look whether its unit is right.")


def _whole_nm(nm: Fraction, is_fraction: bool) -> int:
    if nm > _LONGEST_NM:
        raise _too_long()
    if is_fraction and nm.denominator != 1:
        raise BadInput("Write the fraction in halves, quarters, eighths and so on down to 64ths, or as a decimal.")
    return half_up(nm)


@lru_cache(maxsize=4096)
def show_length(nm: int, unit: str) -> str:
    """For reading: `6′ 2½″`, `74½ in`, `1890 mm`, `189 cm`, `1.89 m`.

    Inches are exact down to 64ths, metric down to what a tape shows; a rounded length begins with "about".
    """
    sign = "−" if nm < 0 else ""
    shown, exact = _show_inches(abs(nm), unit) if unit in {"ft-in", "in"} else _show_metric(abs(nm), unit)
    return f"{'' if exact else 'about '}{sign}{shown}"


_FRACTIONS = {
    Fraction(1, 2): "½",
    Fraction(1, 4): "¼",
    Fraction(3, 4): "¾",
    Fraction(1, 8): "⅛",
    Fraction(3, 8): "⅜",
    Fraction(5, 8): "⅝",
    Fraction(7, 8): "⅞",
}
_RAISED = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")
_LOWERED = str.maketrans("0123456789", "₀₁₂₃₄₅₆₇₈₉")
_DECIMALS = {"mm": (1, 0), "cm": (2, 0), "m": (3, 2)}


def _show_inches(nm: int, unit: str) -> tuple[str, bool]:
    inches = Fraction(nm, NM_PER_INCH)
    exact = 64 % inches.denominator == 0
    if not exact:
        inches = Fraction(half_up(inches * 16), 16)
    if unit == "in":
        return f"{_show_mixed(inches)} in", exact
    feet, inches = divmod(inches, 12)
    return (f"{feet}′ " if feet else "") + f"{_show_mixed(inches)}″", exact


def _show_mixed(inches: Fraction) -> str:
    whole, part = divmod(inches, 1)
    if not part:
        return str(whole)
    built = f"{str(part.numerator).translate(_RAISED)}⁄{str(part.denominator).translate(_LOWERED)}"
    return (str(whole) if whole else "") + _FRACTIONS.get(part, built)


def _show_metric(nm: int, unit: str) -> tuple[str, bool]:
    places, least = _DECIMALS[unit]
    value = Fraction(nm, _NM_PER_UNIT[unit])
    exact = (value * 10**places).denominator == 1
    return f"{decimal_text(value, places, least)} {unit}", exact


def field_length(nm: int, unit: str) -> str:
    """For an input field: `6' 2-1/2"`, or a bare number in the build's unit. Reads back exactly.

    A length that is not on an inch tape (64ths) is written in millimetres, where it always has an end.
    """
    if unit not in {"ft-in", "in"}:
        return decimal_text(Fraction(nm, _NM_PER_UNIT[unit]), 9, 0)
    inches = Fraction(abs(nm), NM_PER_INCH)
    if 64 % inches.denominator:
        return f"{decimal_text(Fraction(nm, NM_PER_MM), 6, 0)} mm"
    sign = "-" if nm < 0 else ""
    if unit == "in":
        return sign + _field_mixed(inches)
    feet, inches = divmod(inches, 12)
    return sign + (f"{feet}' " if feet else "") + f'{_field_mixed(inches)}"'


def _field_mixed(inches: Fraction) -> str:
    whole, part = divmod(inches, 1)
    return "-".join(str(value) for value in (whole, part) if value) or "0"


def area_square_feet(length_nm: int, height_nm: int) -> Fraction:
    """Exact square feet of a rectangle."""
    return Fraction(length_nm * height_nm, NM_PER_FOOT**2)


def area_square_metres(length_nm: int, height_nm: int) -> Fraction:
    """Exact square metres of a rectangle."""
    return Fraction(length_nm * height_nm, NM_PER_M**2)


def show_area(length_nm: int, height_nm: int, unit: str) -> str:
    """`194.8 sq ft` for a build in feet or inches, `18.10 m²` for a metric one."""
    if unit in {"ft-in", "in"}:
        return f"{decimal_text(area_square_feet(length_nm, height_nm), 1, 1)} sq ft"
    return f"{decimal_text(area_square_metres(length_nm, height_nm), 2, 2)} m²"
