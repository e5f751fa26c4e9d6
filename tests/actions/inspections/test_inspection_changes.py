"""What an inspection is said to be is amended, never overwritten: each change says what stood there before."""

from dataclasses import replace

import pytest

from tests import builders
from webapp.inspections import actions, store
from webapp.inspections.rules.record import InspectionForm


@pytest.fixture
def rough(session):
    """Rough plumbing of the west wall under PLB, holding its closing, with a south wall it does not look at."""
    build = builders.a_build(session)
    permit = builders.a_permit(session, build, "PLB")
    west, south = (builders.a_surface(session, build, *named) for named in (("W", "West wall"), ("S", "South wall")))
    kind = builders.an_inspection(session, permit, "Rough plumbing", (west,), holds_cover=True)
    facts = store.get_inspection(session, build.row_id, kind.code)
    form = InspectionForm(
        permit_id=permit.row_id,
        code=facts.code,
        name=facts.name,
        surface_ids=(west.row_id,),
        must_be_ready=facts.must_be_ready,
        notice_days=facts.notice_days,
        ask_by=facts.ask_by,
        who=facts.who,
        before_what=facts.before_what,
        source=facts.source,
        holds_cover=True,
        renews_permit=facts.renews_permit,
    )
    return build.row_id, kind.row_id, form, south.row_id


def changes(session, kind_id):
    return [(each.field, each.was, each.became, each.why) for each in store.list_inspection_changes(session, kind_id)]


def test_taking_off_the_hold_of_an_inspection_stays_readable_with_why(session, rough):
    build_id, kind_id, form, _ = rough
    assert actions.edit_inspection(session, build_id, form.code, replace(form, holds_cover=False), "not on S") == 1
    assert changes(session, kind_id) == [("Its surfaces stay open until it passed", "yes", "no", "not on S")]


def test_a_wall_an_inspection_looks_at_from_now_on_is_named_with_those_before(session, rough):
    build_id, kind_id, form, south = rough
    both = replace(form, surface_ids=(*form.surface_ids, south))
    actions.edit_inspection(session, build_id, form.code, both)
    actions.edit_inspection(session, build_id, form.code, replace(form, surface_ids=()))
    assert changes(session, kind_id) == [
        ("Looks at", "West wall", "West wall and South wall", ""),
        ("Looks at", "West wall and South wall", "the whole building", ""),
    ]


def test_every_part_of_an_inspection_that_changes_leaves_its_own_line(session, rough):
    build_id, kind_id, form, _ = rough
    other = builders.a_permit(session, session.get(builders.Build, build_id), "BLD").row_id
    changed = replace(form, permit_id=other, name="Top-out", must_be_ready="test on", notice_days=2)
    changed = replace(changed, renews_permit=False)
    assert actions.edit_inspection(session, build_id, form.code, changed) == 5
    assert [line[:3] for line in changes(session, kind_id)] == [
        ("Under", "PLB", "BLD"),
        ("Called here", "Rough plumbing", "Top-out"),
        ("What must be ready", form.must_be_ready or "none", "test on"),
        ("Notice, working days", "as its office", "2"),
        ("A pass starts the permit’s clock anew", "yes", "no"),
    ]


def test_keeping_an_inspection_as_it_was_leaves_no_line(session, rough):
    build_id, kind_id, form, _ = rough
    assert actions.edit_inspection(session, build_id, form.code, form, "only looked") == 0
    assert changes(session, kind_id) == []
