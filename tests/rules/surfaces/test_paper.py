"""A surface on paper at a stated scale: worked by fractions, and against the sizes of the papers."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.builders import INCH
from tests.walls import WALL, a_run, a_thing
from webapp.surfaces.rules.bands import bands
from webapp.surfaces.rules.elevation import Facts
from webapp.surfaces.rules.face import Face
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.paper import PAPERS, UNITS_PER_INCH, _fitted, bar_words, printed, room, scales

MM = 1_000_000
FULL = Facts(WALL, (), (a_thing(), a_thing("switch", 100, 46, id=2, tag="E2")), (a_run((60, 16), (60, 24), (100, 24)),))


def a_wall(length: int, height: int, unit: str = "ft-in", kind: SurfaceKind = SurfaceKind.WALL) -> Facts:
    return Facts(Face("E", "Wall", kind, length, height, "NE", "SE", None, None, unit))


def test_an_inch_of_paper_for_a_foot_is_twelve_times_its_inverse():
    """Worked examples of drafting: 1/4 in to the foot is 1:48, 1/2 in 1:24, 3/4 in 1:16, 1 in 1:12 (arithmetic)."""
    said = {scale.words.partition("″")[0]: scale.ratio for scale in scales("ft-in")}
    worked = {"1½": Fraction(3, 2), "1": 1, "¾": Fraction(3, 4), "½": Fraction(1, 2), "⅜": Fraction(3, 8)}
    worked |= {"¼": Fraction(1, 4), "³⁄₁₆": Fraction(3, 16), "⅛": Fraction(1, 8), "¹⁄₁₆": Fraction(1, 16)}
    worked |= {"¹⁄₃₂": Fraction(1, 32)}
    assert said == {words: 12 / inches for words, inches in worked.items()}
    assert (said["¼"], said["½"], said["¾"], said["1"], said["1½"], said["⅜"]) == (48, 24, 16, 12, 8, 32)


@pytest.mark.parametrize("unit", ["ft-in", "mm"])
def test_scales_go_from_the_largest_drawing_to_the_smallest(unit):
    ratios = [scale.ratio for scale in scales(unit)]
    assert ratios == sorted(ratios)
    assert unit == "ft-in" or ratios[:4] == [10, 20, 25, 50]


def test_the_papers_have_the_sizes_of_their_standards():
    """ISO 216: A4 is 210 x 297 mm. ANSI/ASME Y14.1, size A: 8 1/2 x 11 in. Both from memory."""
    assert (PAPERS["a4"].width_nm, PAPERS["a4"].height_nm) == (210 * MM, 297 * MM)
    assert (PAPERS["letter"].width_nm * 2, PAPERS["letter"].height_nm) == (17 * INCH, 11 * INCH)


SIZES = st.tuples(st.integers(300, 20_000), st.integers(300, 4_000))


@given(SIZES, st.sampled_from(["a4", "letter"]), st.sampled_from(["ft-in", "mm"]))
def test_the_drawing_is_true_and_stays_within_the_margins(size, paper, unit):
    facts = a_wall(size[0] * MM, size[1] * MM, unit)
    made = printed(facts, (), PAPERS[paper])
    assert made is not None
    wide, tall = room(PAPERS[paper], lying=made.lying)
    assert made.drawing.width <= wide and made.drawing.height <= tall
    on_paper_mm = facts.face.length_nm * made.drawing.units_per_nm / UNITS_PER_INCH * 25.4
    assert on_paper_mm == pytest.approx(size[0] / made.scale.ratio, abs=1e-6)


@given(SIZES, st.sampled_from(["a4", "letter"]), st.sampled_from(["ft-in", "mm"]))
def test_no_larger_scale_of_the_list_would_fit_either_way(size, paper, unit):
    facts = a_wall(size[0] * MM, size[1] * MM, unit)
    made = printed(facts, (), PAPERS[paper])
    larger = [scale for scale in scales(unit) if scale.ratio < made.scale.ratio]
    assert not any(_fitted(facts, (), PAPERS[paper], scale, lying=lying) for scale in larger for lying in (True, False))


@pytest.mark.parametrize(("paper", "unit", "mark"), [("a4", "mm", "mm"), ("letter", "ft-in", "in")])
def test_the_size_of_the_picture_and_its_box_of_units_agree_to_the_last_decimal(paper, unit, mark):
    made = printed(FULL if unit == "ft-in" else a_wall(4_000 * MM, 2_500 * MM, unit), (), PAPERS[paper])
    inch = Fraction(254, 10) if mark == "mm" else 1
    for said, units in ((made.width, made.drawing.width), (made.height, made.drawing.height)):
        assert said.endswith(mark)
        assert Fraction(said.removesuffix(mark)) == Fraction(units, UNITS_PER_INCH) * inch


@pytest.mark.parametrize(
    ("facts", "paper", "stands_for", "measures"),
    [
        (FULL, "letter", "4 ft", "1½ in"),  # 48 in at 1:32
        (a_wall(257 * INCH, 109 * INCH), "letter", "4 ft", "1½ in"),
        (a_wall(4_000 * MM, 2_500 * MM, "mm"), "a4", "1 m", "40 mm"),  # 1000 mm at 1:25
        (a_wall(1_500 * MM, 900 * MM, "mm"), "a4", "1 m", "100 mm"),  # at 1:10
        (a_wall(14 * 12 * INCH, 8 * 12 * INCH), "letter", "4 ft", "2 in"),  # at 1:24, lying
    ],
)
def test_the_bar_says_what_it_must_measure(facts, paper, stands_for, measures):
    made = printed(facts, bands(facts), PAPERS[paper])
    assert (made.stands_for, bar_words(made, facts.face.unit)) == (stands_for, measures)


def test_depths_of_a_trench_are_drawn_larger_by_a_whole_factor():
    trench = a_wall(58 * 12 * INCH, 30 * INCH, kind=SurfaceKind.TRENCH)
    made = printed(trench, (), PAPERS["letter"])
    assert (made.scale.ratio, made.lying) == (96, True), "58 ft is 7 1/4 in at 1/8 in to the foot"
    assert 1 < made.drawing.depths <= 10


def test_what_is_longer_than_any_scale_is_not_drawn():
    assert printed(a_wall(2_000_000 * MM, 2_000 * MM), (), PAPERS["letter"]) is None
