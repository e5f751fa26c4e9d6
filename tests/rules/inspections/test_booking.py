"""When to ask for a visit, over weekends, holidays and the year's end.

Outside check: weekdays counted by hand on a calendar of 2025 to 2028; the scenario of a permit about to lapse; public
holidays are looked at beside the library that knows them.
"""

from datetime import date

from webapp.inspections.rules.booking import ClosedFacts, DaysOff, OfficeFacts, Offices, Terms
from webapp.inspections.rules.wording import weekday_words

TUE_THU = frozenset({1, 3})


def test_the_scenario_of_a_permit_about_to_lapse():
    """It lapses on Saturday 11 July 2026: Friday is the last useful day, to be asked for by Wednesday."""
    terms = Terms(notice_days=2)
    friday = terms.last_useful_visit(date(2026, 7, 11))
    assert (friday, terms.ask_by(friday)) == (date(2026, 7, 10), date(2026, 7, 8))


def test_only_the_weekdays_on_which_the_office_comes_are_of_use():
    terms = Terms(notice_days=2, visiting=TUE_THU)
    assert terms.last_useful_visit(date(2026, 7, 11)) == date(2026, 7, 9)
    assert terms.ask_by(date(2026, 7, 9)) == date(2026, 7, 7), "notice is counted in working days, not visiting days"
    saturdays = Terms(visiting=frozenset({5}))
    assert saturdays.last_useful_visit(date(2026, 7, 11)) == date(2026, 7, 11)
    assert Terms(visiting=frozenset()).last_useful_visit(date(2026, 7, 11)) is None


def test_each_inspection_goes_by_its_office_unless_it_has_its_own_notice_or_hour():
    office = OfficeFacts(7, "Town", TUE_THU, "09:00", "15:00", 2, "14:00", "07:00", 0, "", "", "my guess")
    holiday = DaysOff(closed=(ClosedFacts(1, 7, date(2026, 7, 6), None, False, ""),))
    offices = Offices((office,), ((7, holiday),))
    terms = offices.terms(7)
    assert (terms.notice_days, terms.ask_hour, terms.visiting, terms.cancel_hour) == (2, "14:00", TUE_THU, "07:00")
    assert terms.ask_by(date(2026, 7, 7)) == date(2026, 7, 2)
    own = offices.terms(7, 1, "12:00")
    assert (own.notice_days, own.ask_hour, own.visiting) == (1, "12:00", TUE_THU)
    none = offices.terms(None)
    assert (none.notice_days, none.ask_hour, none.visits_on(date(2026, 7, 6))) == (1, "15:30", True)


def test_a_visit_can_be_called_off_up_to_an_hour_of_the_day_or_of_working_days_before():
    assert Terms(cancel_hour="07:00").cancel_by(date(2026, 7, 7)) == date(2026, 7, 7)
    assert Terms(cancel_hour="16:00", cancel_days=1).cancel_by(date(2026, 7, 6)) == date(2026, 7, 3)


def test_weekdays_read_as_people_say_them():
    assert weekday_words(TUE_THU) == "Tuesday and Thursday"
    assert weekday_words({0, 1, 2, 3, 4}) == "Monday to Friday"
    assert weekday_words({0, 2, 4}) == "Monday, Wednesday and Friday"
    assert weekday_words(range(7)) == "every day"
