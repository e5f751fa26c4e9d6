"""Cautions: shown for every kind of work that can hurt someone, with a source, never as permission."""

import csv
import re
from importlib.resources import files

import pytest

from webapp.plan.rules import cautions
from webapp.plan.rules.cautions import ALONE, BY_KIND, CLOSING, cautions_for
from webapp.plan.rules.kinds import WORK_KINDS

EVERY = tuple(found for found in vars(cautions).values() if isinstance(found, cautions.Caution))


def headings(kind: str, title: str = "", hands: int = 1) -> list[str]:
    return [caution.heading for caution in cautions_for(kind, title, hands)]


def test_every_caution_names_where_it_comes_from():
    assert len(EVERY) == 13
    for caution in EVERY:
        assert caution.sentences
        assert len(caution.source) > 10
        assert re.search(r"CFR|NFPA|IRC|NIOSH|EPA|law|data sheet", caution.source), caution.heading


def test_every_caution_is_reached_by_some_kind_or_title():
    titled = cautions_for("measuring", "Dig by the trench, gas pipe, foam, feeder, old tile, old paint, cut the slab")
    reached = {caution for found in (*BY_KIND.values(), titled) for caution in found}
    assert set(EVERY) == reached


@pytest.mark.parametrize("word", ["safe", "compliant", "certified", "verified", "to code", "meets"])
def test_no_caution_gives_permission(word):
    for caution in EVERY:
        assert not [s for s in (caution.heading, *caution.sentences) if re.search(rf"\b{word}\b", s)]


def test_the_closing_line_leaves_the_decision_where_it_belongs():
    assert CLOSING == "Usual cautions, not a rule book. Your local authority and licensed people decide."


def test_a_ladder_stands_out_a_quarter_of_its_working_length():
    # 29 CFR 1926.1053(b)(5)(i); the worked example is a published safety note on the 4:1 ratio of January 2024:
    # a ladder against a 10 ft building stands about 2 1/2 ft out, 10 / 4.
    assert any("rests at 10 ft stands 2½ ft out" in s for s in cautions.LADDERS.sentences)


def test_figures_are_those_of_the_cited_rules():
    # 29 CFR 1926.652(a)(1)(ii): no system is asked for under 5 ft where a competent person sees no sign of a cave-in.
    assert "5 ft" in cautions.TRENCH.sentences[0]
    # 29 CFR 1926.501(b)(1): protection from falls of 6 ft or more. 29 CFR 1926.1053(b)(1): rails 3 ft above a landing.
    assert "6 ft" in " ".join(cautions.LADDERS.sentences)
    assert "3 ft" in " ".join(cautions.LADDERS.sentences)
    # 29 CFR 1926.1153: limit 50 and action level 25 micrograms per cubic metre over eight hours.
    assert re.findall(r"\d+", " ".join(cautions.SILICA.sentences)) == ["50", "25", "1"]
    # 40 CFR 745.83: paint before 1978; 6 sq ft a room, 20 sq ft outside.
    assert re.findall(r"\d+", " ".join(cautions.LEAD.sentences)) == ["1978", "6", "20"]


def test_a_tester_is_proved_before_and_after():
    # NFPA 70E, 2021 edition, 120.5(7): before and after each test, try the instrument on a known source.
    assert any("before and again after" in sentence for sentence in cautions.ELECTRICITY.sentences)
    assert headings("wiring")[0] == "Electricity: off, locked, proved dead"


def test_digging_begins_with_having_lines_marked():
    assert headings("digging")[0] == "Digging: have the lines marked first"


def test_a_sheet_hung_alone_is_remarked_on():
    assert ALONE in cautions_for("board", hands=1)[0].sentences
    assert ALONE not in cautions_for("board", hands=2)[0].sentences


def test_a_title_can_call_for_more_than_its_kind():
    assert "Trench walls fall in" in headings("wiring", "Lay both conduits in the trench")
    assert "Ladders and falls" in headings("measuring", "Measure the ceiling")
    assert headings("measuring", "Read the moisture sheet") == []


def test_a_caution_comes_once_even_if_kind_and_title_both_call_for_it():
    assert headings("wiring", "Land the feeder in the sub-panel").count("Electricity: off, locked, proved dead") == 1


def test_desk_work_carries_none_whatever_its_title_says():
    assert headings("paperwork", "Ask the gas company about the trench") == []


def test_only_listed_kinds_of_work_carry_cautions():
    assert set(BY_KIND) <= set(WORK_KINDS)


def test_each_dangerous_task_of_the_demo_build_carries_a_caution():
    harmless = {"checking", "cleaning", "editing", "measuring", "ordering", "paperwork"}
    lines = csv.DictReader(files("webapp.demo").joinpath("content/tasks.csv").read_text("utf-8").splitlines())
    bare = [line["title"] for line in lines if line["kind"] not in harmless and not headings(line["kind"])]
    assert bare == []
