"""Lengths as builders type and read them, against the definition of the inch and published areas."""

from fractions import Fraction

import pytest

from webapp.values.errors import BadInput
from webapp.values.length import (
    NM_PER_FOOT,
    NM_PER_INCH,
    NM_PER_M,
    NM_PER_MM,
    area_square_feet,
    area_square_metres,
    field_length,
    parse_length,
    show_area,
    show_length,
)

SIX_TWO_AND_A_HALF = 1_892_300_000


def test_the_inch_is_exactly_25_4_millimetres_and_the_yard_0_9144_metres():
    """International yard and pound agreement, 1959; NIST Handbook 44, Appendix C, section 4 (exact values)."""
    assert parse_length("1 in", "ft-in") == parse_length("25.4 mm", "mm") == 25_400_000
    assert parse_length("1'", "ft-in") == parse_length("0.3048 m", "m")
    assert parse_length("3'", "ft-in") == parse_length("0.9144", "m")


@pytest.mark.parametrize(
    "typed",
    [
        "6' 2-1/2\"",
        "6'2 1/2",
        "6'-2 1/2\"",
        "6 ft 2 1/2 in",
        "6ft2.5in",
        "6 feet, 2-1/2 inches",
        "6 ft. 2½ in.",
        "6′ 2½″",
        "6′-2½″",
        "6’ 2½”",
        "6' 2 1/2''",
        "6′ 2½′′",
        "6\u00a0ft\u20092½ in",
        "  6' 2⁸⁄₁₆\"  ",
        "74.5 in",
        "74,5",
        '74 1/2"',
        "74½",
        "74-1/2",
        "149/2",
        "6.20833333333333333333'",
        "1.8923 m",
        "1,8923 m",
        "189.23 cm",
        "1892.3 MM",
    ],
)
def test_six_feet_two_and_a_half_in_every_way_a_builder_writes_it(typed):
    assert parse_length(typed, "ft-in") == SIX_TWO_AND_A_HALF


@pytest.mark.parametrize(
    ("typed", "unit", "nm"),
    [
        ("1890", "mm", 1890 * NM_PER_MM),
        ("189", "cm", 1890 * NM_PER_MM),
        ("1,89", "m", 1890 * NM_PER_MM),
        ("0,890", "m", 890 * NM_PER_MM),
        (".5", "m", 500 * NM_PER_MM),
        ("14", "in", 14 * NM_PER_INCH),
        ("14", "ft-in", 14 * NM_PER_INCH),
        ("14'", "mm", 14 * NM_PER_FOOT),
        ("3/4", "in", 3 * NM_PER_INCH // 4),
        ("5/4", "in", 5 * NM_PER_INCH // 4),
        ("½ metre", "in", NM_PER_M // 2),
        ("0", "mm", 0),
        ("-3/4", "ft-in", -19_050_000),
        ("−6' 2½\"", "ft-in", -SIX_TWO_AND_A_HALF),
    ],
)
def test_a_bare_number_takes_the_unit_of_the_build_and_a_written_unit_wins(typed, unit, nm):
    assert parse_length(typed, unit) == nm


def test_every_mark_of_an_inch_tape_is_a_whole_number_of_nanometres():
    for mark in range(1, 64):
        assert parse_length(f"{mark}/64", "in") * 64 == mark * NM_PER_INCH


def test_a_decimal_is_rounded_to_the_nearest_nanometre_half_up():
    assert parse_length("0.00000001 in", "in") == 0
    assert parse_length("0.00000002 in", "in") == 1
    assert parse_length("0.0000005 mm", "mm") == 1
    assert parse_length("-0.0000005 mm", "mm") == -1


@pytest.mark.parametrize("typed", ["1/128", "1/3", "6' 2-1/7\""])
def test_a_fraction_that_is_on_no_tape_is_refused_and_not_rounded(typed):
    with pytest.raises(BadInput, match="halves, quarters, eighths"):
        parse_length(typed, "ft-in")


@pytest.mark.parametrize(
    "typed",
    [
        "",
        "  ",
        "six",
        "6' 2\" 3",
        "6.5' 2\"",
        "--3",
        "1e5",
        "inf",
        "nan",
        "3/0",
        "2 4/4",
        "6 km",
        "1.2.3",
        ".$⁵,388",
        "about 5,388",
        "٣",
        "9" * 70,
    ],
)
@pytest.mark.parametrize(("unit", "example"), [("ft-in", "6' 2-1/2\""), ("mm", "1890"), ("m", "1.89")])
def test_what_is_no_length_is_answered_with_an_example_in_the_unit_of_the_build(typed, unit, example):
    with pytest.raises(BadInput) as caught:
        parse_length(typed, unit)
    assert caught.value.sentence.startswith("Write a length such as ")
    assert example in caught.value.sentence


@pytest.mark.parametrize(
    ("typed", "likely"),
    [
        ("5-6", ("5' 6\"",)),
        ("6 2", ("6' 2\"",)),
        ("6' 22\"", ("7' 10\"",)),
        ("6' 12\"", ("7' 0\"",)),
        ("1,890 mm", ("1890 mm", "1.890 mm")),
        ("-6' 22\"", ("-7' 10\"",)),
        ("-5-6", ("-5' 6\"",)),
        ("1,234,567 mm", ("1234567 mm",)),
    ],
)
def test_a_length_that_can_be_read_two_ways_is_asked_about(typed, likely):
    with pytest.raises(BadInput, match="Did you mean") as caught:
        parse_length(typed, "ft-in")
    assert caught.value.likely == likely
    assert all(parse_length(value, "ft-in") for value in likely)


@pytest.mark.parametrize("typed", ["10001 m", "40000'", "99999999999999999 in", "1' 9999999999\""])
def test_more_than_ten_kilometres_is_refused(typed):
    with pytest.raises(BadInput, match="longer than 10 km"):
        parse_length(typed, "m")


def test_ten_kilometres_are_still_read():
    assert parse_length("10000", "m") == 10_000 * NM_PER_M


def test_an_unknown_unit_is_a_mistake_of_ours_and_not_of_the_builder():
    with pytest.raises(ValueError, match="cubit") as caught:
        parse_length("1", "cubit")
    assert not isinstance(caught.value, BadInput)


@pytest.mark.parametrize(
    ("typed", "unit", "shown"),
    [
        ("6' 2-1/2\"", "ft-in", "6′ 2½″"),
        ("2-1/2", "ft-in", "2½″"),
        ("7/8", "ft-in", "⅞″"),
        ("6'", "ft-in", "6′ 0″"),
        ("6' 5/16\"", "ft-in", "6′ ⁵⁄₁₆″"),
        ("1-15/16", "ft-in", "1¹⁵⁄₁₆″"),
        ("11-63/64", "ft-in", "11⁶³⁄₆₄″"),
        ("0", "ft-in", "0″"),
        ("-6' 2-1/2\"", "ft-in", "−6′ 2½″"),
        ("74-1/2", "in", "74½ in"),
        ("74-5/16", "in", "74⁵⁄₁₆ in"),
        ("1890 mm", "mm", "1890 mm"),
        ("1890 mm", "cm", "189 cm"),
        ("1890 mm", "m", "1.89 m"),
        ("2 m", "m", "2.00 m"),
        ("1.895 m", "m", "1.895 m"),
    ],
)
def test_a_length_is_shown_as_the_trade_writes_it(typed, unit, shown):
    assert show_length(parse_length(typed, unit), unit) == shown


@pytest.mark.parametrize(
    ("typed", "unit", "shown"),
    [
        ("1.89 m", "ft-in", "about 6′ 2⁷⁄₁₆″"),
        ("11.999", "ft-in", "about 1′ 0″"),
        ("-1.89 m", "in", "about −74⁷⁄₁₆ in"),
        ("1/16", "mm", "about 0.1 mm"),
        ("6' 2-9/16\"", "m", "about 1.894 m"),
    ],
)
def test_a_length_that_had_to_be_rounded_says_about(typed, unit, shown):
    assert show_length(parse_length(typed, unit), unit) == shown


@pytest.mark.parametrize(
    ("typed", "unit", "field"),
    [
        ("6′ 2½″", "ft-in", "6' 2-1/2\""),
        ("6'", "ft-in", "6' 0\""),
        ("½", "ft-in", '1/2"'),
        ("−2½", "ft-in", '-2-1/2"'),
        ("74½", "in", "74-1/2"),
        ("1890 mm", "in", "1890 mm"),
        ("1.89 m", "mm", "1890"),
        ("1.89 m", "m", "1.89"),
    ],
)
def test_an_input_field_holds_what_a_keyboard_can_edit(typed, unit, field):
    assert field_length(parse_length(typed, unit), unit) == field
    assert field.isascii()


def feet(number):
    return parse_length(f"{number}'", "ft-in")


def test_135_feet_of_wall_8_feet_high_are_1080_square_feet():
    """A drywall take-off with its answer printed: howtobuildplans.com (published answer)."""
    assert area_square_feet(feet(135), feet(8)) == 1080
    assert show_area(feet(135), feet(8), "ft-in") == "1080.0 sq ft"


def test_walls_and_ceiling_of_a_14_by_22_room_are_884_square_feet():
    """Perimeter times height plus length times width: our own arithmetic, the usual take-off rule; no source."""
    walls = area_square_feet(2 * (feet(14) + feet(22)), feet(8))
    assert walls + area_square_feet(feet(14), feet(22)) == 884


def test_walls_of_a_10_by_15_room_less_door_and_window_are_415_square_feet():
    """Published answer in "Estimate amount of paint" (reference.com): 450 less 35 for one door and one window."""
    walls = area_square_feet(2 * (feet(10) + feet(15)), feet(9))
    assert walls == 450
    assert walls - 35 == 415


def test_a_square_foot_is_exactly_0_09290304_square_metres():
    """NIST Special Publication 811 (2008), Appendix B.8: square foot to square metre, 9.290 304 E-02, exact."""
    assert area_square_metres(feet(1), feet(1)) == Fraction(9_290_304, 100_000_000)


def test_areas_are_shown_in_the_units_of_the_build():
    length, height = parse_length("7240 mm", "mm"), parse_length("2500 mm", "mm")
    assert show_area(length, height, "mm") == "18.10 m²"
    assert show_area(length, height, "in") == "194.8 sq ft"
