"""The gate: closing a surface, finishing the task that closes it, and letting an owed thing go."""

from datetime import date

import pytest
from sqlmodel import select

from tests import builders
from tests.eastwall import a_photo
from webapp.plan.store import get_build
from webapp.readiness import actions
from webapp.readiness.actions import Letting
from webapp.readiness.rules import keys
from webapp.surfaces.models import Cover, Lifted
from webapp.surfaces.rules.kinds import LiftedBy
from webapp.surfaces.store import get_surface, list_covers
from webapp.values.errors import RuleBroken

SATURDAY = date(2026, 5, 16)


@pytest.fixture
def facts(session, here, wall):
    """Build and wall as the gate is given them."""
    session.flush()
    return get_build(session, here.slug), get_surface(session, here.row_id, "E")


@pytest.fixture
def settled(session, wall):
    wall.correction.state, wall.correction.cleared_on = "cleared", SATURDAY
    wall.shot.state, wall.shot.filmed_on = "filmed", SATURDAY
    for slot in wall.slots[5:]:
        slot.photo_id = a_photo(session, 100 + slot.number).row_id
    session.flush()


def letting(key: str, by: LiftedBy = LiftedBy.ME, who: str = "me", why: str = "The light was gone") -> Letting:
    return Letting(key, by, who, why, SATURDAY)


def test_a_refusal_names_everything_and_nothing_is_written(session, facts):
    with pytest.raises(RuleBroken) as refused:
        actions.may_close(session, *facts, SATURDAY)
    assert len(refused.value.verdict.hard) == 4
    assert refused.value.heading == "East wall: do not cover"
    assert all(reason.href for reason in refused.value.verdict.reasons)
    assert session.exec(select(Cover)).all() == []


def test_closing_freezes_who_passed_what_and_when(session, here, facts, settled):
    site = actions.may_close(session, *facts, SATURDAY)
    actions.close_surface(session, site, facts[1], SATURDAY, "me", "board, one layer")
    cover = list_covers(session, here.row_id)[0]
    assert (cover.covered_on, cover.who, cover.layers) == (SATURDAY, "me", "board, one layer")
    assert ("Rough electrical passed", "my note", "7 May 2026") in cover.evidence
    assert ("Pictures 7 of 7", "me", "14 May 2026") in cover.evidence


def test_what_was_let_go_is_frozen_with_its_reason(session, here, wall, facts, settled):
    wall.slots[6].photo_id = None
    session.flush()
    actions.let_go(session, *facts, letting(keys.slot(wall.slots[6].row_id)), SATURDAY)
    site = actions.may_close(session, *facts, SATURDAY)
    actions.close_surface(session, site, facts[1], SATURDAY)
    evidence = list_covers(session, here.row_id)[0].evidence
    assert ("Let go: Picture 7: duct sleeve. The light was gone", "me", "16 May 2026") in evidence


def test_finishing_the_closing_task_is_refused_with_every_reason(session, wall, facts):
    with pytest.raises(RuleBroken) as refused:
        actions.finish_task(session, facts[0], wall.board.row_id, SATURDAY, SATURDAY)
    assert refused.value.heading == "Not finished: East wall may not be covered yet"
    assert len(refused.value.verdict.hard) == 4
    session.flush()
    assert wall.board.state == "not started"


def test_finishing_the_last_closing_task_closes_the_wall(session, here, wall, facts, settled):
    screws = builders.a_task(session, wall.phase, "Screw it off", position=3)
    builders.works_on(session, screws, wall.surface, closes=True)
    builders.a_need(session, screws, wall.board)
    actions.finish_task(session, facts[0], wall.board.row_id, SATURDAY, SATURDAY)
    assert list_covers(session, here.row_id) == ()
    actions.finish_task(session, facts[0], screws.row_id, SATURDAY, SATURDAY)
    assert [cover.covered_on for cover in list_covers(session, here.row_id)] == [SATURDAY]


def test_a_task_that_closes_nothing_is_finished_in_spite_of_its_needs(session, wall, facts):
    """The builder may have done things in another order; only closing is held."""
    actions.finish_task(session, facts[0], wall.mud.row_id, SATURDAY, SATURDAY)
    session.flush()
    assert wall.mud.state == "done"


def test_my_own_evidence_may_be_let_go_with_a_reason(session, wall, facts, owed):
    actions.let_go(session, *facts, letting(keys.shot(wall.shot.row_id)), SATURDAY)
    assert "Shot: sealing the duct sleeve" not in owed(wall.surface)
    assert session.exec(select(Lifted)).one().what == "Shot: sealing the duct sleeve"


@pytest.mark.parametrize("kind", ["correction", "question", "inspection", "wait"])
def test_a_hard_stop_of_others_cannot_be_skipped_by_me(session, here, wall, facts, kind):
    key = _hard_stop(session, here, wall, kind)
    with pytest.raises(RuleBroken) as refused:
        actions.let_go(session, *facts, letting(key), SATURDAY)
    assert refused.value.heading == "A hard stop cannot be skipped"


def _hard_stop(session, here, wall, kind: str) -> str:
    if kind == "question":
        return keys.question(builders.a_question(session, here, wall.surface).row_id)
    if kind == "inspection":
        wall.passed.kind = "failed"
        session.flush()
        return keys.inspection(wall.electrical.row_id, wall.surface.row_id)
    if kind == "wait":
        foam = builders.a_task(session, wall.phase, "Foam", wait_days=3, state="done", done_on=SATURDAY)
        builders.a_need(session, wall.board, foam)
        return keys.task(foam.row_id)
    return keys.correction(wall.correction.row_id)


@pytest.mark.parametrize("kind", ["correction", "inspection"])
def test_the_authoritys_own_word_lifts_what_the_authority_asked_for(session, here, wall, facts, owed, kind):
    key = _hard_stop(session, here, wall, kind)
    before = len(owed(wall.surface))
    word = letting(key, LiftedBy.AUTHORITY, "the inspector, by telephone", "Seen through the open bay")
    actions.let_go(session, *facts, word, SATURDAY)
    assert len(owed(wall.surface)) == before - 1
    assert session.exec(select(Lifted)).one().who == "the inspector, by telephone"


@pytest.mark.parametrize("kind", ["question", "wait"])
def test_the_authoritys_word_does_not_settle_danger_or_curing(session, here, wall, facts, kind):
    key = _hard_stop(session, here, wall, kind)
    with pytest.raises(RuleBroken):
        actions.let_go(session, *facts, letting(key, LiftedBy.AUTHORITY, "the inspector"), SATURDAY)
    assert session.exec(select(Lifted)).all() == []


def test_a_wish_let_go_is_not_asked_for_again(session, here, wall, facts, owed):
    question = builders.a_question(session, here, wall.surface, words="Would two screws do?", kind="better way")
    actions.let_go(session, *facts, letting(keys.question(question.row_id)), SATURDAY)
    assert owed(wall.surface, hard=False) == []


def test_what_is_not_owed_cannot_be_let_go(session, wall, facts):
    with pytest.raises(RuleBroken) as refused:
        actions.let_go(session, *facts, letting(keys.slot(wall.slots[0].row_id)), SATURDAY)
    assert "does not owe this any more" in str(refused.value)
