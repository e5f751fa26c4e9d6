"""What makes a task no work for one alone: ticked by the builder, with a sentence and where it comes from."""

import re

import pytest

from webapp.plan.rules.dangers import ALONE, ALONE_SOURCE, BEFORE, NO_PROMISE, Danger, how_words, in_order


def test_each_danger_has_one_short_sentence_with_its_source():
    assert set(BEFORE) == set(Danger)
    for before in BEFORE.values():
        assert len(before.says) < 140
        assert re.search(r"29 CFR 19|[Cc]ommon practice", before.source)


def test_figures_are_those_of_the_cited_clauses():
    # 29 CFR 1926.1053(b)(5)(i): the foot about one quarter of the working length from the wall.
    assert "a quarter of the working length" in BEFORE[Danger.LADDER].says
    # 29 CFR 1926.501(b)(1) and (b)(13): protection from falls of 6 feet or more.
    assert "from 6 ft up" in BEFORE[Danger.ROOF].says
    # 29 CFR 1926.651(c)(2): trenches 4 feet or more deep, no more than 25 feet to a way out; 1926.652(a)(1): 5 feet.
    assert re.findall(r"(\d+) ft", BEFORE[Danger.TRENCH].says) == ["4", "25", "5"]
    # 29 CFR 1910.333(a)(1): live parts are de-energised before work on or near them.
    assert "licensed electrician" in BEFORE[Danger.LIVE].says


def test_the_reminder_says_where_when_and_whom_to_call_and_promises_nothing():
    # HSE, Working alone, INDG73 (title from memory): keep in touch at agreed times. Else: common practice, no source.
    said = " ".join(ALONE)
    assert all(word in said for word in ("where you are", "when you will be back", "on your body", "should call"))
    assert "INDG73" in ALONE_SOURCE and "common practice" in ALONE_SOURCE
    assert "makes nothing harmless" in NO_PROMISE and "calls nobody" in NO_PROMISE


@pytest.mark.parametrize("word", ["safe", "compliant", "certified", "verified", "to code", "meets", "alarm", "warn"])
def test_no_sentence_gives_permission_or_promises_an_alarm(word):
    for text in (*ALONE, NO_PROMISE, *(before.says for before in BEFORE.values())):
        assert not re.search(rf"\b{word}", text)


def test_ticks_are_told_in_one_order_and_unknown_ones_are_passed_over():
    assert in_order(("saw", "ladder", "bear")) == (Danger.LADDER, Danger.SAW)
    assert how_words(("saw", "ladder")) == "on a ladder and with a saw"
    assert how_words(()) == ""
