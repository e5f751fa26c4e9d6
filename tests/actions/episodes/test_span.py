"""What falls into a span, read from a real record."""

from datetime import date

import pytest

from tests import builders
from tests.builders import AT
from tests.counting import queries
from webapp.episodes import store
from webapp.inspections.models import Result
from webapp.plan.store import get_build
from webapp.surfaces.models import PictureSlot

FIRST, LAST = date(2026, 5, 1), date(2026, 5, 16)
INSIDE, OUTSIDE = date(2026, 5, 7), date(2026, 4, 30)


@pytest.fixture
def bindery(session):
    made = builders.a_build(session)
    return made, get_build(session, made.slug)


def facts(session, build):
    return store.span_facts(session, build, FIRST, LAST)


def an_inspected_wall(session, build, day=INSIDE, **more: object) -> Result:
    surface = builders.a_surface(session, build)
    inspection = builders.an_inspection(session, builders.a_permit(session, build), surfaces=(surface,))
    return builders.a_result(session, builders.a_visit(session, inspection, day), surface, **more)


def test_tasks_fall_in_by_the_day_they_were_done(session, bindery):
    row, build = bindery
    phase = builders.a_phase(session, row)
    for title, day in (("In", INSIDE), ("First day", FIRST), ("Last day", LAST), ("Before", OUTSIDE)):
        builders.a_task(session, phase, title, state="done", done_on=day)
    builders.a_task(session, phase, "Reopened", state="reopened", done_on=INSIDE)
    assert [task.title for task in facts(session, build).done] == ["First day", "In", "Last day"]


def test_another_build_keeps_its_own_facts(session, bindery):
    _, build = bindery
    other = builders.a_build(session, "Boathouse")
    builders.a_task(session, builders.a_phase(session, other), state="done", done_on=INSIDE)
    an_inspected_wall(session, other)
    builders.a_workday(session, other, INSIDE)
    builders.a_spend(session, other, day=INSIDE)
    found = facts(session, build)
    assert (found.done, found.results, found.hours.days, found.spent.cents) == ((), (), 0, 0)


def test_a_current_result_is_told_with_its_wall_and_its_paper(session, bindery):
    row, build = bindery
    an_inspected_wall(session, row, evidence="card signed")
    (result,) = facts(session, build).results
    assert (result.inspection, result.place, result.kind, result.stands) == (
        "Rough electrical",
        "East wall",
        "passed",
        True,
    )
    assert result.paper == "my note", "a card without a picture of it is only a note"


@pytest.mark.parametrize("state", ["withdrawn", "replaced"])
def test_a_result_that_does_not_count_any_more_is_not_told(session, bindery, state):
    row, build = bindery
    an_inspected_wall(session, row, state=state)
    assert facts(session, build).results == ()


def test_a_result_outside_the_span_is_not_told(session, bindery):
    row, build = bindery
    an_inspected_wall(session, row, OUTSIDE)
    assert facts(session, build).results == ()


def test_a_pass_that_failed_later_no_longer_stands_and_a_fail_that_passed_later_does(session, bindery):
    row, build = bindery
    first = an_inspected_wall(session, row, date(2026, 5, 2))
    inspection = store.span_facts(session, build, FIRST, LAST).results[0].inspection
    visit = builders.a_visit(session, session.get_one(builders.Inspection, first.inspection_id), date(2026, 5, 5))
    builders.a_result(session, visit, session.get_one(builders.Surface, first.surface_id), kind="failed")
    last = builders.a_visit(session, session.get_one(builders.Inspection, first.inspection_id), date(2026, 5, 9))
    assert [(one.kind, one.stands) for one in facts(session, build).results] == [("passed", False), ("failed", True)]
    builders.a_result(session, last, session.get_one(builders.Surface, first.surface_id), kind="passed")
    told = [(one.day.day, one.kind, one.stands) for one in facts(session, build).results]
    assert told == [(2, "passed", True), (5, "failed", True), (9, "passed", True)], inspection


def test_a_correction_done_but_not_seen_has_nobody_who_saw_it(session, bindery):
    row, build = bindery
    result = an_inspected_wall(session, row, kind="failed")
    visit = session.get_one(builders.Visit, result.visit_id)
    builders.a_correction(session, visit, result, state="done, to be seen", done_on=date(2026, 5, 9))
    (one,) = facts(session, build).corrections
    assert (one.done_on, one.seen_by) == (date(2026, 5, 9), "")


def test_seeing_it_after_the_span_does_not_count_in_it(session, bindery):
    row, build = bindery
    result = an_inspected_wall(session, row, kind="failed")
    visit = session.get_one(builders.Visit, result.visit_id)
    builders.a_correction(session, visit, result, state="done, to be seen", done_on=date(2026, 5, 9))
    inspection = session.get_one(builders.Inspection, result.inspection_id)
    again = builders.a_visit(session, inspection, date(2026, 5, 20))
    builders.a_result(session, again, session.get_one(builders.Surface, result.surface_id))
    assert facts(session, build).corrections[0].seen_by == ""
    later = store.span_facts(session, build, FIRST, date(2026, 5, 20))
    assert later.corrections[0].seen_on == date(2026, 5, 20)


def test_an_open_correction_is_told_where_it_was_written(session, bindery):
    row, build = bindery
    result = an_inspected_wall(session, row, OUTSIDE, kind="failed")
    builders.a_correction(session, session.get_one(builders.Visit, result.visit_id), result)
    assert facts(session, build).corrections == ()
    assert store.span_facts(session, build, OUTSIDE, LAST).corrections[0].done_on is None


def test_hours_spend_and_shots_are_summed_by_the_day(session, bindery):
    row, build = bindery
    builders.a_workday(session, row, INSIDE, own_min=60, hired_min=30)
    builders.a_workday(session, row, INSIDE, own_min=15, helper_unpaid_min=20, helper_paid_min=10)
    builders.a_workday(session, row, OUTSIDE)
    builders.a_spend(session, row, day=INSIDE, total_cents=1050)
    builders.a_spend(session, row, day=INSIDE, total_cents=-50)
    builders.a_spend(session, row, day=OUTSIDE)
    builders.a_shot(session, row, state="filmed", filmed_on=INSIDE)
    builders.a_shot(session, row, state="owed")
    found = facts(session, build)
    hours = found.hours
    assert (hours.days, hours.own, hours.unpaid, hours.paid, hours.hired) == (1, 75, 20, 10, 30)
    assert (found.spent.cents, found.spent.lines, len(found.shots)) == (1000, 2, 1)


def test_pictures_are_offered_by_the_day_taken_but_cards_and_receipts_never(session, bindery, settings):
    row, build = bindery
    taken = builders.a_picture(session, row, settings.photos)
    card = builders.a_picture(session, row, settings.photos, builders.pictures.a_jpeg(taken="2026:05:08 10:00:00"))
    receipt = builders.a_picture(session, row, settings.photos, builders.pictures.a_jpeg(taken="2026:05:08 11:00:00"))
    old = builders.a_picture(session, row, settings.photos, builders.pictures.a_jpeg(taken="2026:04:30 10:00:00"))
    result = an_inspected_wall(session, row)
    result.photo_id = card
    session.add(result)
    builders.a_spend(session, row, receipt_photo_id=receipt)
    offered = [one.photo_id for one in facts(session, build).pictures]
    assert offered == [taken]
    assert not any(store.is_offered(session, build.id, one) for one in (card, receipt))
    assert store.is_offered(session, build.id, old)


def test_a_picture_that_fills_a_slot_belongs_to_its_build_and_without_a_day_counts_when_it_came(
    session, bindery, settings
):
    row, build = bindery
    other = builders.a_build(session, "Boathouse")
    plain = builders.a_picture(session, other, settings.photos, builders.pictures.a_jpeg())
    assert facts(session, build).pictures == ()
    surface = builders.a_surface(session, row)
    builders.kept(
        session,
        PictureSlot(surface_id=surface.row_id, position=1, number=1, what="Whole", photo_id=plain, filled_at=AT),
    )
    (one,) = facts(session, build).pictures
    assert (one.photo_id, one.taken, one.day) == (plain, False, AT.date())


def test_the_one_in_the_making_holds_what_happened_until_today(session, bindery, settings):
    row, build = bindery
    assert store.holds_by_now(session, build, LAST) == store.Holdings()
    builders.an_episode(session, row, from_day=FIRST)
    builders.a_workday(session, row, INSIDE, helper_unpaid_min=60, helper_paid_min=30, hired_min=15)
    builders.a_workday(session, row, date(2026, 5, 17))
    builders.a_task(session, builders.a_phase(session, row), state="done", done_on=LAST)
    an_inspected_wall(session, row)
    builders.a_shot(session, row, state="filmed", filmed_on=INSIDE)
    builders.a_picture(session, row, settings.photos)
    assert store.holds_by_now(session, build, LAST) == store.Holdings(1, 330, 60, 30, 15, 1, 1, 1, 1)


def test_what_today_asks_takes_two_queries(database, build):
    with database.writing() as session:
        builders.an_episode(session, build)
    with database.reading() as session, queries(database) as sent:
        facts_of_build = get_build(session, build.slug)
        sent.clear()
        assert store.in_the_making(session, build.row_id) is not None
        store.holds_by_now(session, facts_of_build, LAST)
    assert len(sent) == 2


def test_ahead_tells_what_stops_the_next_phase_and_hides_the_amount_of_a_fee(session, bindery):
    row, build = bindery
    rough, board = builders.a_phase(session, row, "Rough-in", 1), builders.a_phase(session, row, "Board", 2)
    box = builders.a_task(session, rough, "Ground the box", state="under way")
    hang = builders.a_task(session, board, "Hang the board")
    builders.a_need(session, hang, box)
    wall = builders.a_surface(session, row)
    builders.works_on(session, hang, wall, closes=True)
    permit = builders.a_permit(session, row)
    builders.an_inspection(session, permit, surfaces=(wall,))
    builders.a_fee(session, permit, amount_cents=12_345)
    found = store.ahead(session, build, LAST)
    assert found.next_phase == "Board"
    told = [line.words for line in found.stops]
    assert "Ground the box" in told and "a fee to pay" in told
    assert "123" not in "".join(told)
    assert found.coming[0].words == "Ground the box"
