"""Points tied to two fixed points: triangles by hand, and the lettering of the drawing."""

from dataclasses import dataclass

import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.surfaces.rules.face import Face
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.strip import strip
from webapp.surfaces.rules.ties import SLACK_NM, bends_between, lettered, too_far_apart

INCH = 25_400_000
TRENCH = Face("TR", "Trench", SurfaceKind.TRENCH, 696 * INCH, 30 * INCH, "house", "garage", None, None, "in")


@dataclass(frozen=True)
class ATie:
    x: int
    a: int
    b: int
    name: str = "Bend"
    from_a: str = "porch corner"
    from_b: str = "garage corner"

    x_nm = property(lambda self: self.x * INCH)
    a_nm = property(lambda self: self.a * INCH)
    b_nm = property(lambda self: self.b * INCH)


def test_two_ties_to_one_point_differ_by_no_more_than_the_points_lie_apart():
    """Euclid, Elements, book I, proposition 20: any two sides of a triangle are longer than the third."""
    known = ATie(0, 100, 300, "Start")
    assert too_far_apart("trench", ATie(100, 200, 220), [known]) is None
    assert too_far_apart("trench", ATie(100, 206, 220), [known]) is None, "two tapes may differ by a hand's breadth"
    wrong = too_far_apart("trench", ATie(100, 207, 220), [known])
    assert (wrong.field, wrong.fixed, wrong.other) == ("a", "porch corner", "Start")
    assert (wrong.along_nm, wrong.ties_nm) == (100 * INCH, 107 * INCH)
    second = too_far_apart("trench", ATie(100, 150, 100), [known])
    assert (second.field, second.fixed) == ("b", "garage corner")


def test_the_same_fixed_point_counts_as_either_tie_and_however_it_is_written():
    known = ATie(0, 100, 300, "Start")
    swapped = ATie(100, 250, 250, from_a="Garage  Corner", from_b="PORCH corner")
    assert too_far_apart("trench", swapped, [known]).fixed == "PORCH corner"
    elsewhere = ATie(100, 250, 250, from_a="meter post", from_b="old oak")
    assert too_far_apart("trench", elsewhere, [known]) is None, "nothing is known of points that share no fixed one"


def test_on_a_slab_nothing_follows_because_points_also_lie_apart_across_it():
    assert too_far_apart("slab", ATie(100, 500, 500), [ATie(0, 100, 300)]) is None
    assert bends_between("slab", [ATie(0, 1, 1), ATie(500, 1, 1)]) == ()


@given(st.integers(0, 696), st.integers(0, 696), st.integers(-400, 400), st.integers(1, 400), st.integers(-400, 900))
def test_what_was_taped_along_a_straight_trench_is_never_refused(one, two, u, v, w):
    """Two fixed points anywhere beside a straight trench; the tapes are read to the nearest inch."""

    def taped(x: int, name: str) -> ATie:
        return ATie(x, round(((x - u) ** 2 + v**2) ** 0.5), round(((x - w) ** 2 + v**2) ** 0.5), name)

    first, second = taped(one, "One"), taped(two, "Two")
    assert too_far_apart("trench", first, [second]) is None
    assert bends_between("trench", [first, second]) == ()


def test_points_farther_apart_along_a_trench_than_their_ties_reach_are_hinted_at():
    (hint,) = bends_between("trench", [ATie(0, 40, 300, "Start"), ATie(400, 60, 300, "End")])
    assert (hint.other, hint.along_nm, hint.ties_nm) == ("Start and End", 400 * INCH, 100 * INCH)
    assert SLACK_NM == 6 * INCH


def test_fixed_points_are_lettered_in_the_order_they_are_named():
    ties = [ATie(0, 1, 1), ATie(1, 1, 1, from_a="GARAGE corner", from_b="meter post")]
    assert lettered(ties) == {"porch corner": "A", "garage corner": "B", "meter post": "C"}
    many = [ATie(at, 1, 1, from_a=f"a{at}", from_b=f"b{at}") for at in range(14)]
    assert list(lettered(many).values())[25:28] == ["Z", "A2", "B2"]


@pytest.mark.parametrize("wide", [True, False])
def test_the_strip_shows_each_point_where_it_is_along_the_trench(wide):
    ties = [ATie(8, 60, 693), ATie(348, 353, 358), ATie(686, 688, 84)]
    drawn = strip(TRENCH, ties, wide)
    words = [text.words for layer in drawn.layers for text in layer.texts]
    assert [word for word in words if word[0] == "P"] == ["P1", "P2", "P3"]
    assert ("353 in" in words) is wide
    side = (drawn.width - 696 * INCH * drawn.units_per_nm) / 2
    circles = [path.d for layer in drawn.layers for path in layer.paths if path.pen == "l2 f-paper"]
    starts = [float(part.split(" ")[0]) for d in circles for part in d.split("M")[1:] if "a4 4" in part]
    wanted = [side + tie.x_nm * drawn.units_per_nm - 4 for tie in ties]
    assert starts == pytest.approx(wanted, abs=0.01)


def test_too_many_points_for_their_lengths_keep_their_numbers():
    ties = [ATie(at * 60, 400, 400, f"P{at}") for at in range(11)]
    words = [text.words for layer in strip(TRENCH, ties, wide=True).layers for text in layer.texts]
    assert "P11" in words
    assert "400 in" not in words
