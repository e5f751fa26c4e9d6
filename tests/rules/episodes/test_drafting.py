"""A draft says what the facts say, with their days, and nothing else."""

from dataclasses import replace
from datetime import date

import pytest

from webapp.episodes.rules import drafting
from webapp.episodes.rules.drafting import as_markdown, draft
from webapp.episodes.rules.facts import DoneTask, Hours, Line, PutRight, SeenResult, SpanFacts, Spent
from webapp.inspections.rules.kinds import ResultKind

EMPTY = SpanFacts(date(2026, 5, 1), date(2026, 5, 16))
MAY_7 = date(2026, 5, 7)


def a_result(place: str = "East wall", kind: str = "passed", **more: object) -> SeenResult:
    values = {"inspection": "Rough electrical", "day": MAY_7, "part": "", "paper": "card signed", "stands": True}
    return SeenResult(place=place, kind=kind, href="/builds/bindery/visits/1", **(values | more))


def a_put_right(**more: object) -> PutRight:
    values = {
        "number": 2,
        "words": "Plates on three studs.",
        "place": "East wall",
        "said_only": False,
        "written_on": MAY_7,
        "done_on": date(2026, 5, 9),
        "seen_by": "",
        "seen_on": None,
        "href": "/builds/bindery/corrections/2",
    }
    return PutRight(**(values | more))


def said(facts: SpanFacts, section: str) -> list[str]:
    return [each.text_md for each in draft(facts) if each.section == section]


def test_an_empty_span_says_nothing():
    assert draft(EMPTY) == ()
    assert as_markdown(()) == ""


def test_work_is_told_phase_by_phase():
    done = (
        DoneTask("Pull the runs.", "Rough-in", MAY_7, "/t/1"),
        DoneTask("Set the boxes", "Rough-in", MAY_7, "/t/2"),
        DoneTask("Stuff the bays", "Insulation", MAY_7, "/t/3"),
    )
    sentences = draft(replace(EMPTY, done=done))
    assert [each.text_md for each in sentences] == [
        "**Rough-in:** Pull the runs; Set the boxes.",
        "**Insulation:** Stuff the bays.",
    ]
    assert [fact.href for fact in sentences[0].facts] == ["/t/1", "/t/2"]


@pytest.mark.parametrize(
    ("kind", "part", "ending"),
    [
        ("passed", "", "passed."),
        ("passed, small items on my honour", "", "passed, with small items left to my word."),
        ("seen at the next visit", "", "was not passed; it is to be seen at the next visit."),
        ("part passed", "all but the box", "part passed (all but the box)."),
        ("part passed", "", "part passed; which part is not written down."),
        ("failed", "", "failed."),
        ("not looked at", "", "was not looked at."),
    ],
)
def test_every_kind_of_result_is_said_in_plain_words_with_its_day(kind, part, ending):
    facts = replace(EMPTY, results=(a_result(kind=kind, part=part),))
    assert said(facts, drafting.INSPECTOR) == [f"7 May 2026: Rough electrical (East wall) {ending}"]


def test_every_kind_of_result_there_is_has_words():
    for kind in ResultKind:
        assert said(replace(EMPTY, results=(a_result(kind=kind),)), drafting.INSPECTOR)


def test_only_a_passing_kind_is_called_passed_without_more():
    for kind in set(ResultKind) - {ResultKind.PASSED, ResultKind.SMALL_ITEMS}:
        (text,) = said(replace(EMPTY, results=(a_result(kind=kind, part="west half"),)), drafting.INSPECTOR)
        assert ") passed" not in text


def test_walls_that_got_the_same_answer_share_a_sentence_and_others_do_not():
    results = (a_result("East wall"), a_result("North wall"), a_result("South wall", kind="failed"))
    assert said(replace(EMPTY, results=results), drafting.INSPECTOR) == [
        "7 May 2026: Rough electrical (East wall and North wall) passed.",
        "7 May 2026: Rough electrical (South wall) failed.",
    ]


def test_a_pass_that_a_later_visit_took_back_says_so():
    (sentence,) = draft(replace(EMPTY, results=(a_result(stands=False),)))
    assert sentence.text_md.endswith("passed. A later visit said otherwise.")
    assert sentence.facts[0].line == drafting.NOT_KNOWN


def test_a_result_without_a_paper_shows_that_beside_the_sentence():
    (sentence,) = draft(replace(EMPTY, results=(a_result(paper="my note"),)))
    assert "my note" in sentence.facts[0].detail


@pytest.mark.parametrize(
    ("more", "ending"),
    [
        ({}, "Not yet seen by the inspector."),
        ({"seen_by": "me"}, "Cleared on my own word."),
        ({"seen_by": "the inspector, visit of 12 May 2026", "seen_on": date(2026, 5, 12)}, "cleared on 12 May 2026."),
    ],
)
def test_what_was_put_right_says_who_saw_it(more, ending):
    (text,) = said(replace(EMPTY, corrections=(a_put_right(**more),)), drafting.PUT_RIGHT)
    assert text.startswith("Put right on 9 May 2026: Plates on three studs (East wall).")
    assert text.endswith(ending)


def test_an_open_correction_is_told_as_open_and_stops():
    (sentence,) = draft(replace(EMPTY, corrections=(a_put_right(done_on=None, said_only=True),)))
    assert sentence.text_md == "Still to put right: Plates on three studs (East wall)."
    assert sentence.facts[0].label == "Correction 2, said, not written"
    assert sentence.facts[0].line == drafting.STOPPING


def test_what_lies_ahead_names_each_thing_once():
    same = (Line("Ground the box", "Waits for: me", "/a"), Line("Ground the box", "Waits for: me", "/b"))
    facts = replace(EMPTY, stops=same, next_phase="Board", coming=same[:1])
    assert said(facts, drafting.STOPS) == ["Board waits for: Ground the box."]
    assert said(facts, drafting.COMING) == ["Next: Ground the box."]


def test_hours_and_spend_stay_out_unless_the_builder_shows_them():
    facts = replace(EMPTY, hours=Hours(2, 480, 120), spent=Spent(123_450, 3, "USD"))
    assert said(facts, drafting.HOURS) == ["8 h of my own and 2 h of unpaid help, on 2 days."]
    assert said(replace(facts, show_hours=False), drafting.HOURS) == []
    assert said(facts, drafting.SPEND) == []
    assert said(replace(facts, show_spend="rounded"), drafting.SPEND) == ["Paid in this time: about USD 1,200."]
    assert said(replace(facts, show_spend="exact"), drafting.SPEND) == ["Paid in this time: USD 1,234.50."]


def test_the_amount_stands_nowhere_while_it_is_only_shown_roughly():
    (sentence,) = draft(replace(EMPTY, spent=Spent(123_450, 3, "USD"), show_spend="rounded"))
    assert "234" not in "".join([sentence.text_md, *(fact.detail + fact.label for fact in sentence.facts)])


def test_typed_words_cannot_become_marks():
    done = (DoneTask("Cut *two* [studs](http://x) <b>", "Framing_1", MAY_7, "/t/1"),)
    (sentence,) = draft(replace(EMPTY, done=done))
    assert sentence.text_md == r"**Framing\_1:** Cut \*two\* \[studs\](http://x) \<b\>."


def test_the_sections_come_in_order_each_under_its_heading():
    facts = replace(
        EMPTY,
        done=(DoneTask("Pull", "Rough-in", MAY_7, "/t"),),
        results=(a_result(), a_result(kind="failed", place="South wall")),
        questions=("Fur first?",),
    )
    assert as_markdown(draft(facts)) == (
        "## What was done\n\n**Rough-in:** Pull.\n\n"
        "## What the inspector said\n\n- 7 May 2026: Rough electrical (East wall) passed.\n"
        "- 7 May 2026: Rough electrical (South wall) failed.\n\n"
        "## Questions to you\n\nFur first?\n"
    )
