"""Circuits and lines: put right with all that is on them, put in order, taken out of use and back in use."""

from dataclasses import replace
from datetime import date

import pytest

from tests import builders
from webapp.surfaces import actions, store
from webapp.surfaces.actions import LineDraft, RunDraft
from webapp.values.errors import BadInput, RuleBroken

CIRCUIT = LineDraft("C01", "circuit", "Bench receptacles", "electric", "1", 20, 1, "12-2", "bench", "")
RUN = RunDraft("12-2", None, "electric", "[[0, 0], [1, 1]]", "", None, None, None)


@pytest.fixture
def build(session):
    return builders.a_build(session)


@pytest.fixture
def line(session, build):
    return actions.add_line(session, build.row_id, CIRCUIT)


def listed(session, build):
    return [line.code for line in store.list_lines(session, build.row_id)]


def told(session, build, kind):
    changes = store.list_changes(session, build.row_id)
    return [(change.field, change.was, change.became) for change in changes if change.what_kind == kind]


def test_two_lines_of_one_build_do_not_share_a_short_name(session, build, line):
    with pytest.raises(BadInput, match="“c01” is the short name of another line"):
        actions.add_line(session, build.row_id, replace(CIRCUIT, code="c01"))
    other = builders.a_build(session, "Boathouse")
    assert actions.add_line(session, other.row_id, CIRCUIT).position == 1


def test_what_is_on_a_line_follows_it_into_another_service_and_says_what_it_was(session, build, line):
    surface = builders.a_surface(session, build)
    own = builders.an_item(session, surface, line_id=line.row_id)
    other = builders.an_item(session, surface, "Not on it")
    run = builders.a_run(session, surface, line_id=line.row_id)
    draft = replace(CIRCUIT, kind="low voltage", service="data", number="", breaker_a=None)
    actions.edit_line(session, build.row_id, line.row_id, draft)
    assert (own.service, other.service, run.service) == ("data", "electric", "data")
    assert told(session, build, "item") == told(session, build, "run") == [("service", "electric", "data")]
    assert ("breaker_a", "20", "") in told(session, build, "line")


def test_a_line_moves_among_those_of_its_kind_and_passes_the_others(session, build, line):
    for code, kind in (("CW", "water"), ("C02", "circuit"), ("C03", "circuit"), ("HW", "water")):
        actions.add_line(session, build.row_id, replace(CIRCUIT, code=code, kind=kind, number=""))
    third = store.get_line(session, build.row_id, "C03").id
    actions.move_line(session, build.row_id, third, -1)
    assert listed(session, build) == ["C01", "CW", "C03", "C02", "HW"]
    actions.move_line(session, build.row_id, third, -1)
    actions.move_line(session, build.row_id, third, -1)
    assert listed(session, build) == ["C03", "CW", "C01", "C02", "HW"], "the first stays the first"


def test_out_of_use_is_said_once_and_its_space_may_be_given_away(session, build, line):
    actions.end_line(session, build.row_id, line.row_id, date(2026, 5, 14))
    with pytest.raises(BadInput, match="out of use since 14 May 2026 already"):
        actions.end_line(session, build.row_id, line.row_id, date(2026, 5, 15))
    with pytest.raises(BadInput, match="no place in the order"):
        actions.move_line(session, build.row_id, line.row_id, 1)
    actions.add_line(session, build.row_id, replace(CIRCUIT, code="C14"))
    with pytest.raises(RuleBroken) as refused:
        actions.use_line(session, build.row_id, line.row_id, "/builds/bindery")
    assert [reason.sentence for reason in refused.value.verdict.reasons] == ["Space 1 is taken by C14."]
    assert line.ended_on == date(2026, 5, 14)


def test_a_line_is_in_use_again_and_both_days_stay_readable(session, build, line):
    actions.end_line(session, build.row_id, line.row_id, date(2026, 5, 14))
    actions.use_line(session, build.row_id, line.row_id, "/builds/bindery")
    actions.use_line(session, build.row_id, line.row_id, "/builds/bindery")
    assert told(session, build, "line") == [("ended_on", "2026-05-14", ""), ("ended_on", "", "2026-05-14")]


def test_only_what_still_goes_on_from_a_run_follows_its_new_way(session, build, line):
    east, above = builders.a_surface(session, build), builders.a_surface(session, build, "C", position=2)
    old = builders.a_run(session, east)
    gone = builders.a_run(session, above, continues_id=old.row_id, replaced_on=date(2026, 5, 1))
    going = builders.a_run(session, above, continues_id=old.row_id)
    made = actions.replace_run(session, build.row_id, old.row_id, RUN, date(2026, 5, 16))
    assert (going.continues_id, gone.continues_id) == (made.row_id, old.row_id)
    assert told(session, build, "run") == [("continues_id", str(old.row_id), str(made.row_id))]
