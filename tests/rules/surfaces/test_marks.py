"""The small section: what it may say, and what it must not."""

import itertools

import pytest

from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.marks import is_turned, layers

YES_NO = (False, True)


@pytest.mark.parametrize(("has_items", "evidence"), list(itertools.product(YES_NO, YES_NO)))
@pytest.mark.parametrize("kind", SurfaceKind)
def test_an_open_surface_never_claims_to_be_seen_or_closed(kind, has_items, evidence):
    drawn = layers(kind, has_items, covered=False, evidence=evidence)
    assert not set(drawn) & set("CFimjn")


def test_a_wall_closed_on_evidence_has_inked_plates_and_one_closed_without_has_crossed_ones():
    assert layers("wall", has_items=True, covered=True, evidence=True) == "ACDF"
    assert layers("wall", has_items=True, covered=True, evidence=False) == "AODF"


def test_a_trench_and_a_slab_have_their_own_sections():
    assert layers("trench", has_items=True, covered=True, evidence=True) == "ghij"
    assert layers("slab", has_items=False, covered=True, evidence=False) == "kn"


def test_what_lies_flat_is_drawn_flat():
    assert [is_turned(kind) for kind in ("ceiling", "floor", "wall", "trench")] == [True, True, False, False]
