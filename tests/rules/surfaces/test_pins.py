"""Pins lie where they were measured."""

from webapp.surfaces.rules.drawing import Scale
from webapp.surfaces.rules.pins import Pin, marks, numbered, spot

UP = Scale(left=10, top=20, length_nm=1000, height_nm=400, along=0.1, across=0.1, down=False)
PINS = numbered([Pin(2, 900, 100, "right"), Pin(1, 200, 300, "left")])


def test_pins_are_numbered_from_the_corner_on():
    assert [pin.photo_id for pin in PINS] == [1, 2]


def test_a_pin_lies_where_it_was_measured():
    left, right = marks(PINS, UP)
    assert (left.x, left.y) == (30, 30), "20 units from the corner, 30 above the floor at 60"
    assert (right.x, right.y) == (100, 50)
    assert [mark.number for mark in (left, right)] == [1, 2]


def test_the_numbers_for_a_script_lead_back_to_the_offsets():
    left, zero, along, across, way = map(float, spot(UP).split())
    assert ((30 - left) / along, way * (30 - zero) / across) == (200, 300)


def test_its_markup_holds_nothing_anybody_typed():
    (mark,) = marks([Pin(1, 0, 0, "<script>")], UP)
    assert "script" not in mark.svg
