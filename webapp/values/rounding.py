"""Rounding, in one place, so that the same sum never rounds two ways."""

from fractions import Fraction


def half_up(value: Fraction) -> int:
    """The nearest whole number; a half goes away from zero, so that a return mirrors its purchase exactly."""
    doubled = abs(value) * 2
    whole = (doubled.numerator + doubled.denominator) // (2 * doubled.denominator)
    return -whole if value < 0 else whole


def decimal_text(value: Fraction, places: int, least: int) -> str:
    """`value` with at most `places` decimals, trailing zeros dropped down to `least`; ASCII minus and dot."""
    scaled = half_up(value * 10**places)
    whole, part = divmod(abs(scaled), 10**places)
    decimals = f"{part:0{places}d}".rstrip("0").ljust(least, "0") if places else ""
    sign = "-" if scaled < 0 else ""
    return f"{sign}{whole}.{decimals}" if decimals else f"{sign}{whole}"
