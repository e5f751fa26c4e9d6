"""Refusals: every reason is kept, hard ones apart from wishes, and a way on goes with them."""

from dataclasses import FrozenInstanceError

import pytest

from webapp.values.errors import BadInput, NotFound, RuleBroken
from webapp.values.verdict import Reason, Verdict, Way

NOT_PASSED = Reason("Rough electrical has not been passed", href="/inspections/4")
NO_PICTURE = Reason("No picture of the vent pipe", detail="E wall", href="/photos/take")
NICE_SHOT = Reason("The pan along the wall is not filmed", hard=False)


def test_nothing_in_the_way_means_allowed():
    verdict = Verdict()
    assert verdict.allowed
    assert verdict.hard == verdict.wishes == ()


def test_one_hard_reason_refuses_and_wishes_stay_apart():
    verdict = Verdict((NOT_PASSED, NICE_SHOT, NO_PICTURE))
    assert not verdict.allowed
    assert verdict.hard == (NOT_PASSED, NO_PICTURE)
    assert verdict.wishes == (NICE_SHOT,)


def test_a_wish_alone_does_not_refuse():
    assert Verdict((NICE_SHOT,)).allowed


def test_a_reason_is_hard_unless_it_says_otherwise():
    assert Reason("The slab is curing").hard


def test_a_verdict_cannot_be_changed_after_it_was_given():
    with pytest.raises(FrozenInstanceError):
        Verdict().reasons = (NOT_PASSED,)  # type: ignore[misc]


def test_a_refusal_names_every_reason_and_carries_the_ways_on():
    way = Way("Record the authority's own word", "/surfaces/2/word", "Who, when, on which paper")
    refused = RuleBroken(Verdict((NOT_PASSED, NO_PICTURE)), ways_on=(way,))
    assert refused.heading == "Not saved"
    assert refused.ways_on == (way,)
    assert str(refused) == ("Not saved: Rough electrical has not been passed; No picture of the vent pipe")


def test_bad_input_is_a_value_error_with_likely_values_to_offer():
    bad = BadInput("April has 30 days.", ("2026-04-30",))
    assert isinstance(bad, ValueError)
    assert (bad.sentence, bad.likely, str(bad)) == ("April has 30 days.", ("2026-04-30",), "April has 30 days.")
    assert BadInput("Write a length.").likely == ()


def test_not_found_keeps_its_sentence():
    assert NotFound("There is no surface 9 in this build.").sentence == "There is no surface 9 in this build."
