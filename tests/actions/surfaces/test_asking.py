"""Questions: asked, settled with an answer, opened again without losing it."""

from datetime import date

import pytest

from tests import builders
from webapp.surfaces import actions, store
from webapp.values.errors import BadInput, NotFound

MAY_8, MAY_10 = date(2026, 5, 8), date(2026, 5, 10)


@pytest.fixture
def build(session):
    return builders.a_build(session)


@pytest.fixture
def asked(session, build):
    east = builders.a_surface(session, build)
    return actions.ask_question(
        session, build.row_id, east.row_id, "Can a screw reach it?", "danger", MAY_8, "a viewer"
    )


def facts(session, build, question):
    return store.get_question(session, build.row_id, question.row_id)


def test_a_question_knows_its_place_its_kind_and_who_asked(session, build, asked):
    known = facts(session, build, asked)
    assert (known.kind, known.asked_by, known.settled_on) == ("danger", "a viewer", None)
    assert known.surface_id == store.get_surface(session, build.row_id, "e").id


@pytest.mark.parametrize("answer", ["", "  \n "])
def test_no_question_is_settled_without_an_answer(session, build, asked, answer):
    with pytest.raises(BadInput, match="Write what settles it"):
        actions.settle_question(session, build.row_id, asked.row_id, answer, MAY_10)
    assert facts(session, build, asked).settled_on is None


def test_no_question_is_settled_before_it_was_asked(session, build, asked):
    with pytest.raises(BadInput, match="before it was asked"):
        actions.settle_question(session, build.row_id, asked.row_id, "measured", date(2026, 5, 7))


def test_an_answer_that_does_not_hold_opens_it_again_and_stays_readable(session, build, asked):
    actions.settle_question(session, build.row_id, asked.row_id, "2 in apart, measured by me", MAY_10)
    actions.reopen_question(session, build.row_id, asked.row_id, "measured at the wrong stud")
    assert facts(session, build, asked).settled_on is None
    change = store.list_changes(session, build.row_id)[0]
    assert change.was == "2 in apart, measured by me (2026-05-10)"
    assert "wrong stud" in change.became


def test_a_question_without_words_is_none(session, build):
    with pytest.raises(BadInput, match="as it was asked"):
        actions.ask_question(session, build.row_id, None, " ", "question", MAY_8)


def test_a_question_belongs_to_its_own_build(session, build, asked):
    other = builders.a_build(session, "Boathouse")
    with pytest.raises(NotFound):
        actions.settle_question(session, other.row_id, asked.row_id, "yes", MAY_10)
