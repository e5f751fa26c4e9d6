"""Readings of gauges against published conversions; what is no number stays as words."""

from fractions import Fraction

import pytest

from webapp.linetests.rules.readings import PASCAL, also, moved, read_reading


def test_ten_feet_of_water_press_with_4_33_psi_at_the_bottom():
    """Worked example: 10 ft of water, 4.33 psi, by 0.4335 psi per foot (usual tables of head and pressure)."""
    ten_feet = read_reading("10 ft of water")
    assert abs(ten_feet.into("psi") - Fraction("4.33")) < Fraction("0.01")
    a_foot = PASCAL["ft of water"] / PASCAL["psi"]
    assert round(a_foot, 4) == Fraction("0.4335")


@pytest.mark.parametrize(
    ("text", "unit", "wanted", "within"),
    [
        ("1 psi", "kpa", "6.894757", "0.000001"),
        ("1 bar", "psi", "14.50377", "0.00001"),
        ("100 kPa", "bar", "1", "0"),
        ("1 in Hg", "kpa", "3.386389", "0.000001"),
        ("5 psi", "kpa", "34.47379", "0.00001"),
    ],
)
def test_conversions_are_those_of_the_standard(text, unit, wanted, within):
    """NIST Special Publication 811 (2008), appendix B.8: psi 6.894 757 kPa, inch of mercury conventional 3.386 389."""
    assert abs(read_reading(text).into(unit) - Fraction(wanted)) <= Fraction(within)


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [
        ("92 psi", 92, "psi"),
        ("92psig", 92, "psi"),
        ("1,5 bar", Fraction(3, 2), "bar"),
        ("10 ft 0 in", 10, "ft of water"),
        ("10 ft of water", 10, "ft of water"),
        ("9 ft 6 in of water", Fraction(19, 2), "ft of water"),
        ("4½ psi", Fraction(9, 2), "psi"),
    ],
)
def test_a_number_with_a_unit_is_read(text, value, unit):
    found = read_reading(text)
    assert (found.value, found.unit) == (value, unit)


@pytest.mark.parametrize("text", ["to the brim", "pass", "over 500 megohm", "92", "", "dry", "psi", "1,890 psi"])
def test_what_is_no_such_number_stays_as_words(text):
    assert read_reading(text) is None
    assert also(text) == ""


@pytest.mark.parametrize(
    ("start", "end", "says"),
    [
        ("92 psi", "91 psi", "from 92 psi to 91 psi"),
        ("92 psi", "92 psi", "stayed at 92 psi"),
        ("1 bar", "100 kPa", "stayed at 100 kPa"),
        ("to the brim", "to the brim", "to the brim at both ends"),
        ("dry", "dark edge", "from dry to dark edge"),
        ("92 psi", "", "92 psi at the start"),
    ],
)
def test_what_moved_is_said_and_nothing_is_judged(start, end, says):
    assert moved(start, end) == says


def test_other_units_stand_beside():
    assert also("92 psi") == "about 634 kPa, 6.3 bar"
    assert also("10 ft 0 in") == "about 4.3 psi, 30 kPa"
