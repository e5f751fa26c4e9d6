"""What a gauge showed: kept as typed, compared and converted exactly where it is a number with a unit."""

import re
from dataclasses import dataclass
from fractions import Fraction

from webapp.values.errors import BadInput
from webapp.values.length import parse_length
from webapp.values.typed import NUMBER, plain_text, read_number

PASCAL = {
    "psi": Fraction("0.45359237") * Fraction("9.80665") / Fraction("0.0254") ** 2,
    "kpa": Fraction(1000),
    "bar": Fraction(100_000),
    "in hg": Fraction("3386.389"),
    "ft of water": Fraction(1000) * Fraction("9.80665") * Fraction("0.3048"),
    "m of water": Fraction(1000) * Fraction("9.80665"),
}
"""pascals of one unit. psi by the exact pound, inch and standard gravity (NIST SP 811, 2008, appendix B.8); water at
1000 kg per cubic metre, so that a foot of it is 0.4335 psi; mercury conventional (NIST SP 811, B.8)"""
SHOWN = {
    "psi": "psi",
    "kpa": "kPa",
    "bar": "bar",
    "in hg": "in Hg",
    "ft of water": "ft of water",
    "m of water": "m of water",
}
_UNITS = {
    "psi": "psi",
    "psig": "psi",
    "lb": "psi",
    "kpa": "kpa",
    "bar": "bar",
    "in hg": "in hg",
    "inhg": "in hg",
    "in of mercury": "in hg",
    "in mercury": "in hg",
    "ft of water": "ft of water",
    "ft water": "ft of water",
    "ft head": "ft of water",
    "ft": "ft of water",
    "m of water": "m of water",
    "m": "m of water",
}
_READING = re.compile(rf"({NUMBER})\s*([a-z]+(?: [a-z]+){{0,2}})", re.ASCII)
_NM_PER_FOOT = 304_800_000


@dataclass(frozen=True, slots=True)
class Reading:
    """A number on a gauge. `unit` is one of PASCAL."""

    value: Fraction
    unit: str

    @property
    def pascals(self) -> Fraction:
        return self.value * PASCAL[self.unit]

    def into(self, unit: str) -> Fraction:
        """The same pressure in another unit, exactly."""
        return self.pascals / PASCAL[unit]


def read_reading(text: str) -> Reading | None:
    """`92 psi`, `1,5 bar`, `10 ft 0 in`; None for what is no number with a unit: `to the brim` stays as words."""
    plain = plain_text(text).rstrip(".")
    found = _READING.fullmatch(plain)
    if found and found[2] in _UNITS:
        value = read_number(found[1])
        return None if value is None else Reading(value, _UNITS[found[2]])
    return _head(plain.removesuffix(" of water"))


def _head(plain: str) -> Reading | None:
    """A column of water measured with a tape: `10 ft 0 in`, `3.05 m`."""
    if not re.search(r"ft|'|\bm\b", plain):
        return None
    try:
        return Reading(Fraction(parse_length(plain, "in"), _NM_PER_FOOT), "ft of water")
    except BadInput:
        return None


def moved(start: str, end: str) -> str:
    """`stayed at 92 psi`, `from 92 psi to 91 psi`: what was read, never what it means."""
    if not end:
        return f"{start} at the start" if start else ""
    if not start:
        return f"{end} at the end"
    first, last = read_reading(start), read_reading(end)
    same = first.pascals == last.pascals if first and last else plain_text(start) == plain_text(end)
    if same:
        return f"stayed at {end}" if last else f"{end} at both ends"
    return f"from {start} to {end}"


def also(text: str) -> str:
    """The same in the other units a gauge or a handout may use: `about 634 kPa, 6.3 bar`; empty for words."""
    found = read_reading(text)
    if found is None:
        return ""
    others = ("kpa", "bar") if found.unit == "psi" else ("psi",) if found.unit in {"kpa", "bar"} else ("psi", "kpa")
    return f"about {', '.join(f'{_show(found.into(unit), unit)} {SHOWN[unit]}' for unit in others)}"


def _show(value: Fraction, unit: str) -> str:
    """To a whole kilopascal, else to one place; halves away from zero."""
    places = 0 if unit == "kpa" else 1
    scaled = (value * 10**places * 2 + 1) // 2
    whole, rest = divmod(scaled, 10**places)
    return f"{whole}.{rest}" if places else str(whole)
