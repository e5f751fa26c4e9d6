"""Whose hours: four kinds, never silently one sum."""

from datetime import date

from webapp.workdays.rules.hours import (
    Hours,
    own_question,
    people_question,
    split_question,
    together,
    week_of,
)

SATURDAY = date(2026, 5, 16)


def test_four_kinds_of_hours_stay_apart():
    day = Hours(own=420, unpaid=540, paid=270)
    assert day.words() == ("7 h my own", "9 h unpaid help", "4½ h paid help")


def test_a_day_without_hours_has_no_words_for_them():
    assert Hours().words() == ()


def test_days_are_added_kind_by_kind():
    week = together([Hours(420, 540, 270, 0), Hours(own=60, hired=120), Hours()])
    assert week == Hours(480, 540, 270, 120)


def test_a_week_begins_on_monday():
    assert week_of(SATURDAY) == date(2026, 5, 11)
    assert week_of(date(2026, 5, 11)) == date(2026, 5, 11)
    assert week_of(date(2026, 5, 17)).isocalendar().weekday == 1


def test_a_whole_day_of_my_own_is_believed_and_a_minute_more_is_asked_about():
    assert own_question(24 * 60, 0, SATURDAY) == ""
    assert own_question(24 * 60 + 1, 0, SATURDAY) == "That makes 24 h 1 min of your own in one day, and a day has 24."


def test_an_earlier_note_of_the_same_day_counts_too():
    assert own_question(120, 22 * 60, SATURDAY) == ""
    asked = own_question(180, 22 * 60, SATURDAY)
    assert asked.startswith("22 h are noted for 16 May 2026 already. That makes 25 h of your own")


def test_hours_of_helpers_over_a_day_need_more_people():
    assert people_question(24 * 60) == ""
    assert "at least 2 people" in people_question(24 * 60 + 30)
    assert "at least 3 people" in people_question(50 * 60)


def test_tasks_may_take_less_than_the_day_but_not_more():
    assert split_question(300, 420) == ""
    assert split_question(420, 420) == ""
    assert split_question(450, 420) == "The tasks add up to 7½ h; the day has 7 h of your own."
