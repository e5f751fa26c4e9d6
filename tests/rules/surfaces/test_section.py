"""The cross-section fills layer by layer, and shows what was covered too early."""

import pytest

from webapp.surfaces.rules.section import SurfaceState, in_words, is_turned, layers


@pytest.mark.parametrize(
    ("true_of_it", "small", "large"),
    [
        ({}, "ao", "AO"),
        ({"services": True}, "aob", "AOB"),
        ({"services": True, "seen": True}, "acb", "ACB"),
        ({"services": True, "seen": True, "insulated": True}, "acd", "ACD"),
        ({"services": True, "seen": True, "insulated": True, "may_be_covered": True}, "acde", "ACDE"),
        ({"services": True, "seen": True, "insulated": True, "covered": True}, "acdf", "ACDF"),
        ({"services": True, "insulated": True, "covered": True}, "aodf", "AODF"),
    ],
)
def test_a_wall_fills_from_the_sheathing_to_the_board(true_of_it, small, large):
    state = SurfaceState("wall", **true_of_it)
    assert layers(state) == small
    assert layers(state, large=True) == large


def test_board_over_unseen_work_says_so():
    assert in_words(SurfaceState("wall", covered=True)) == "closed, not seen before"
    assert in_words(SurfaceState("wall", covered=True, seen=True)) == "closed"


def test_a_ceiling_has_no_tick_lying_on_its_side():
    assert layers(SurfaceState("ceiling", seen=True, insulated=True), large=True) == "AcD"


def test_trench_and_slab_have_their_own_marks():
    assert layers(SurfaceState("trench", services=True, seen=True, covered=True)) == "ghij"
    assert layers(SurfaceState("slab", services=True)) == "kl"


def test_what_lies_flat_is_drawn_flat():
    assert [is_turned(kind) for kind in ("ceiling", "floor", "wall", "trench")] == [True, True, False, False]


@pytest.mark.parametrize(
    ("kind", "passed", "failed"), [("wall", "acb", "aob"), ("trench", "ghi", "gh"), ("slab", "klm", "kl")]
)
def test_beside_one_inspection_the_plates_are_inked_where_it_passed(kind, passed, failed):
    assert layers(SurfaceState(kind, services=True, seen=True)) == passed
    assert layers(SurfaceState(kind, services=True)) == failed
