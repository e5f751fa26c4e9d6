"""What a day says, and the keys in the address of its page."""

from dataclasses import replace
from datetime import date

import pytest

from webapp.workdays.rules.freed import from_address, in_address
from webapp.workdays.rules.hours import Hours
from webapp.workdays.rules.said import Bought, DayForm, DayWords, Work, stopped_parts, stopped_words

NOTHING = DayForm(DayWords(date(2026, 5, 16), Hours()))


def test_a_day_with_only_its_date_is_empty():
    assert NOTHING.empty


@pytest.mark.parametrize(
    "more",
    [
        {"words": replace(NOTHING.words, hours=Hours(own=30))},
        {"words": replace(NOTHING.words, hours=Hours(hired=30))},
        {"words": replace(NOTHING.words, weather="rain")},
        {"words": replace(NOTHING.words, lost=True)},
        {"words": replace(NOTHING.words, next_step="Tin snips")},
        {"work": (Work(3),)},
        {"photo_ids": (1,)},
        {"bought": (Bought("Screws", 995),)},
        {"shot_ids": (4,)},
    ],
)
def test_any_one_part_is_enough(more):
    assert not replace(NOTHING, **more).empty


def test_work_is_told_with_its_time_where_it_is_known():
    assert Work(1).words() == "worked on"
    assert Work(1, 90, finished=True).words() == "finished, 1½ h"


def test_what_stopped_the_day_is_the_choice_and_the_words():
    assert stopped_words("Goods", "the straps are short") == "Goods: the straps are short"
    assert stopped_words("Rain", "") == "Rain"
    assert stopped_words("", "a wedding") == "a wedding"
    assert stopped_words("Other", "a wedding") == "a wedding"
    assert stopped_words("Other", "") == "Other"


@pytest.mark.parametrize("said", ["", "Rain", "Goods: the straps are short", "a wedding", "plan check: late", "Other"])
def test_what_stopped_the_day_goes_into_the_form_and_comes_out_the_same(said):
    assert stopped_words(*stopped_parts(said)) == said


def test_keys_come_back_from_the_address():
    assert from_address(in_address(["task:12", "cover:3"])) == ("task:12", "cover:3")


@pytest.mark.parametrize("text", ["", "task:", "task:0", "fee:3", "task:1;drop", "<b>", "task:٣", "cover:99999999999"])
def test_what_is_no_key_in_the_address_is_passed_over(text):
    assert from_address(f"{text},task:5,task:5") == ("task:5",)
