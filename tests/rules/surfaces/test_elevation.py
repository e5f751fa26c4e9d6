"""A surface drawn to scale: hand geometry, and whatever is drawn stays on the sheet."""

import re
from dataclasses import replace
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.strokes import extent, text_extent
from webapp.surfaces.rules.elevation import Facts, draw, glance, standing
from webapp.surfaces.rules.face import Face, Opening, Run, Thing
from webapp.surfaces.rules.kinds import SERVICES, SurfaceKind
from webapp.surfaces.rules.legend import MARKING, legend
from webapp.surfaces.rules.symbols import MAKERS
from webapp.surfaces.rules.telling import describe
from webapp.values.length import NM_PER_FOOT as FOOT
from webapp.values.length import NM_PER_INCH as INCH

EAST = Face("E", "East wall", SurfaceKind.WALL, 161 * INCH, 108 * INCH, "NE", "SE", 16 * INCH, 12 * INCH, "ft-in")
DOOR = Opening(1, "door", "Entry door", 96 * INCH, 0, 38 * INCH, 82 * INCH)
WINDOW = Opening(2, "window", "Window", 20 * INCH, 40 * INCH, 48 * INCH, 36 * INCH)


def thing(kind: str = "receptacle", x: int = 58, y: int = 16, **more: object) -> Thing:
    known = {"id": 1, "tag": "E1", "label": "East", "service": "electric", "width_nm": None, "replaced": False}
    return Thing(kind=kind, x_nm=x * INCH, y_nm=y * INCH, **(known | more))  # type: ignore[arg-type]


def pens(drawing) -> list[str]:
    return [path.pen for layer in drawing.layers for path in layer.paths]


def words(drawing) -> list[str]:
    return [text.words for layer in drawing.layers for text in layer.texts]


def test_a_thing_is_drawn_where_it_was_measured():
    drawing = draw(Facts(EAST, (), (thing("conduit"),)))
    unit = drawing.units_per_nm * INCH
    assert unit == pytest.approx(644 / 161), "four units to the inch: the wall is as wide as the sheet allows"
    marks = drawing.layers[2].paths[0].d
    x, y = (float(part) for part in re.match(r"M([\d.]+) ([\d.]+)", marks).groups())
    assert (x + 7 - 118) / unit == pytest.approx(58), "58 in from the corner"
    assert (84 + 108 * unit - y) / unit == pytest.approx(16), "16 in above the floor"


def test_the_bar_measures_what_it_says():
    for unit, said in (("ft-in", 4 * FOOT), ("mm", 1_000_000_000)):
        drawing = draw(Facts(replace(EAST, unit=unit)))
        lower = drawing.layers[-1]
        parts = [path.d for path in lower.paths if path.pen in {"l1 f-ink", "l1 f-paper"}][-4:]
        lengths = [float(re.search(r"h([\d.]+)", part).group(1)) for part in parts]
        assert len(parts) == 4
        assert sum(lengths) == pytest.approx(said * drawing.units_per_nm, abs=0.02)
        assert lower.texts[-1].words == ("4 ft" if unit == "ft-in" else "1 m")


def test_a_trench_says_how_much_larger_its_depths_are_drawn():
    trench = Face("TR", "Trench", SurfaceKind.TRENCH, 696 * INCH, 30 * INCH, "house wall", "", None, None, "ft-in")
    drawing = draw(Facts(trench, (), (thing("conduit", 348, 24),)))
    unit = drawing.units_per_nm * INCH
    assert drawing.depths == 6
    y = float(re.match(r"M[\d.]+ ([\d.]+)", drawing.layers[2].paths[0].d).group(1))
    assert (y - 104) / unit / 6 == pytest.approx(24, abs=0.01), "24 in below grade"
    assert draw(Facts(EAST)).depths == 1


@pytest.mark.parametrize("x", [20, 140])
def test_no_height_is_lettered_across_the_line_of_the_floor(x):
    low = tuple(thing("conduit", x, y, id=y, tag=f"E{y}") for y in (1, 2, 3, 4))
    floor = 84 + 644 / 161 * 108
    heights = [
        text for layer in draw(Facts(EAST, (), low)).layers for text in layer.texts if text.words in {"1″", "4″"}
    ]
    assert len(heights) == 2
    assert all(float(text.y) + 4 < floor for text in heights)


def test_a_door_cuts_the_plate_and_a_window_has_a_sill_and_cripples():
    wall = replace(EAST, spacing_nm=None)
    unit = 644 / 161
    plain, door = draw(Facts(wall)).layers[0].paths, draw(Facts(wall, (DOOR,))).layers[0].paths
    assert f"h{161 * unit:g}v6h" in plain[0].d, "one plate from corner to corner"
    assert f"h{96 * unit:g}v6h" in door[0].d, "with a door it ends there"
    studs = draw(Facts(EAST)).layers[0].paths[0].d.count("z")
    assert draw(Facts(EAST, (WINDOW,))).layers[0].paths[0].d.count("z") == studs + 3, "three studs are cut in two"
    assert "l1 hid" in pens(draw(Facts(EAST, (WINDOW,)))), "a cross of dashes"


def test_what_was_replaced_is_drawn_only_when_asked():
    old = thing(replaced=True)
    both = Facts(EAST, (), (old, thing("switch", 80, id=2, tag="E2")))
    assert [tag.words for tag in draw(standing(both)).tags] == ["E2"]
    assert [tag.words for tag in draw(both).tags] == ["E1", "E2"]
    assert any(pen.endswith("hid") for pen in pens(draw(both)))
    assert "moved or replaced since" in [sign.words for sign in legend(both)]


def test_each_run_has_the_letter_of_its_service_standing_in_it():
    for service, letter in (
        ("electric", "E"),
        ("data", "T"),
        ("water", "W"),
        ("drain", "D"),
        ("gas", "G"),
        ("air", "A"),
    ):
        run = Run(1, "C2", "Run", service, ((0, 30 * INCH), (90 * INCH, 30 * INCH)), replaced=False)
        assert letter in words(draw(Facts(EAST, (), (), (run,))))


def test_the_legend_has_only_what_is_drawn():
    run = Run(1, "C2", "Run", "water", ((0, 30 * INCH), (90 * INCH, 30 * INCH)), replaced=False)
    facts = Facts(EAST, (DOOR,), (thing(), thing("blocking", 20, service="framing")), (run,))
    assert [sign.words for sign in legend(facts)] == ["E electric", "W water", "receptacle", "blocking", "opening"]
    assert legend(Facts(EAST)) == ()


def test_colours_follow_the_public_marks_for_buried_lines():
    """APWA Uniform Color Code (as shown at digline.com/utility-color-codes): red electric, yellow gas, orange
    communication, blue potable water, green sewer and drain. Purple is reclaimed water there; here air and the rest."""
    from webapp.surfaces.rules.kinds import SERVICE_LETTERS

    hues = {"e": "red", "g": "yellow", "t": "orange", "w": "blue", "d": "green", "a": "purple"}
    published = {"electric": "red", "gas": "yellow", "data": "orange", "water": "blue", "drain": "green"}
    assert {service: hues[SERVICE_LETTERS[service]] for service in published} == published
    assert "APWA Uniform Color Code" in MARKING


def test_the_drawing_is_told_in_words():
    facts = Facts(EAST, (DOOR,), (thing(), thing("switch", 80, id=2)))
    assert describe(facts) == (
        "13′ 5″ long, 9′ 0″ high, measured from NE and the finished floor, towards SE. Studs every 1′ 4″ on centre. "
        "1 door. 1 receptacle, 1 switch."
    )


KINDS = st.sampled_from([*sorted(MAKERS), "blocking", "something else"])
SHARE = st.floats(0, 1)


@st.composite
def surfaces(draw_from):
    """A surface of any kind and shape with openings, things and runs that lie within it."""
    kind = draw_from(st.sampled_from(list(SurfaceKind)))
    length, height = (draw_from(st.integers(6, 900)) * INCH for _ in range(2))
    spacing, first = (
        draw_from(st.sampled_from([None, 16 * INCH, 24 * INCH])),
        draw_from(st.sampled_from([None, 9 * INCH])),
    )
    face = Face(
        "X", "Any", kind, length, height, "NE", "SE", spacing, first, draw_from(st.sampled_from(["ft-in", "mm"]))
    )

    def spot():
        return round(draw_from(SHARE) * length), round(draw_from(SHARE) * height)

    def opening(at):
        (x1, y1), (x2, y2) = spot(), spot()
        what = draw_from(st.sampled_from(["door", "window", "hatch", "sleeve"]))
        return Opening(at, what, what, min(x1, x2), min(y1, y2), max(1, abs(x2 - x1)), max(1, abs(y2 - y1)))

    def item(at):
        x, y = spot()
        width = draw_from(st.sampled_from([None, 4 * INCH, 40 * INCH]))
        service = draw_from(st.sampled_from(SERVICES))
        return Thing(at, f"E{at}", draw_from(KINDS), "Thing", service, x, y, width, draw_from(st.booleans()))

    def run(at):
        points = tuple(spot() for _ in range(draw_from(st.integers(2, 4))))
        return Run(at, f"C{at}", "Run", draw_from(st.sampled_from(SERVICES)), points, draw_from(st.booleans()))

    counts = [draw_from(st.integers(0, most)) for most in (2, 25, 6)]
    return Facts(
        face,
        *(tuple(make(at) for at in range(count)) for make, count in zip((opening, item, run), counts, strict=True)),
    )


@given(surfaces())
@settings(max_examples=60, deadline=None)
def test_everything_stays_on_the_sheet_and_no_tag_covers_another(facts):
    for drawing in (draw(facts), glance(facts)):
        boxes = [extent(path.d) for layer in drawing.layers for path in layer.paths]
        boxes += [text_extent(text) for layer in drawing.layers for text in layer.texts]
        boxes += [extent(tag.box) for tag in drawing.tags]
        for left, top, right, bottom in boxes:
            assert left >= 0
            assert top >= 0
            assert right <= drawing.width
            assert bottom <= drawing.height
        assert sorted(tag.id for tag in drawing.tags) == [one.id for one in facts.things]
        for one, other in combinations(drawing.tags, 2):
            apart = one.x + one.width <= other.x or other.x + other.width <= one.x
            assert apart or one.y + one.height <= other.y or other.y + other.height <= one.y


@given(surfaces())
@settings(max_examples=20, deadline=None)
def test_the_same_facts_make_the_same_drawing_with_two_decimals_at_most(facts):
    assert draw(facts) == draw(facts)
    paths = " ".join(path.d for layer in draw(facts).layers for path in layer.paths)
    assert not re.search(r"\.\d{3}", paths)
