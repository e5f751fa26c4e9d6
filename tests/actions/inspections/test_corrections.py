"""Each correction goes its own way: own word, a picture sent, a re-visit."""

from datetime import UTC, date, datetime

import pytest

from tests import builders
from webapp.inspections import actions, store
from webapp.inspections.rules.kinds import ClearsBy, CorrectionForm
from webapp.photos.models import Photo
from webapp.values.errors import RuleBroken

TODAY = date(2026, 5, 16)


@pytest.fixture
def a_correction(session):
    """A function that makes a correction with its way of clearing; returns (build id, correction id)."""
    build = builders.a_build(session)
    wall = builders.a_surface(session, build)
    visit = builders.a_visit(
        session, builders.an_inspection(session, builders.a_permit(session, build), surfaces=(wall,))
    )
    result = builders.a_result(session, visit, wall, "failed")

    def make(clears_by: ClearsBy) -> tuple[int, int]:
        made = builders.a_correction(session, visit, result, clears_by=clears_by.value)
        return build.row_id, made.row_id

    return make


def a_picture(session) -> int:
    photo = Photo(
        sha256="a" * 64,
        media_type="image/jpeg",
        size=1,
        width=1,
        height=1,
        received_at=datetime(2026, 5, 16, 9, 0, tzinfo=UTC),
    )
    return builders.kept(session, photo).row_id


def test_done_is_not_cleared(session, a_correction):
    build_id, correction_id = a_correction(ClearsBy.REVISIT)
    actions.correction_done(session, build_id, correction_id, TODAY)
    found = store.get_correction(session, build_id, correction_id)
    assert (found.state, found.done_on, found.cleared_on) == ("done, to be seen", TODAY, None)


def test_my_own_word_clears_only_what_was_left_to_it(session, a_correction):
    mine, seen = a_correction(ClearsBy.OWN_WORD), a_correction(ClearsBy.REVISIT)
    actions.clear_correction(session, *mine, TODAY)
    assert store.get_correction(session, *mine).cleared_by == "me"
    for name in ("me", "", " Myself "):
        with pytest.raises(RuleBroken, match="clears by re-visit"):
            actions.clear_correction(session, *seen, TODAY, name, "looks fine")


def test_the_authoritys_word_clears_with_who_when_and_how(session, a_correction):
    build_id, correction_id = a_correction(ClearsBy.PICTURE)
    with pytest.raises(RuleBroken, match="how they said so"):
        actions.clear_correction(session, build_id, correction_id, TODAY, "the inspector")
    actions.clear_correction(session, build_id, correction_id, TODAY, "the inspector", "by message")
    found = store.get_correction(session, build_id, correction_id)
    assert (found.state, found.cleared_by, found.cleared_on) == ("cleared", "the inspector", TODAY)


def test_a_picture_is_sent_only_where_a_picture_clears_and_only_when_there_is_one(session, a_correction):
    build_id, correction_id = a_correction(ClearsBy.PICTURE)
    with pytest.raises(RuleBroken, match="no picture of it yet"):
        actions.send_picture(session, build_id, correction_id, TODAY)
    actions.send_picture(session, build_id, correction_id, TODAY, a_picture(session))
    found = store.get_correction(session, build_id, correction_id)
    assert (found.state, found.after) == ("done, picture sent, no answer yet", "a" * 64)
    with pytest.raises(RuleBroken, match="clears by re-visit"):
        actions.send_picture(session, *a_correction(ClearsBy.REVISIT), TODAY)


def test_every_step_stays_in_its_history_and_it_can_be_opened_again(session, a_correction):
    build_id, correction_id = a_correction(ClearsBy.OWN_WORD)
    actions.correction_done(session, build_id, correction_id, TODAY)
    actions.clear_correction(session, build_id, correction_id, TODAY)
    actions.reopen_correction(session, build_id, correction_id, TODAY, "the plate had slipped")
    steps = [(each.was, each.became) for each in store.list_correction_changes(session, correction_id)]
    assert steps == [("open", "done, to be seen"), ("done, to be seen", "cleared"), ("cleared by me", "open")]
    found = store.get_correction(session, build_id, correction_id)
    assert (found.state, found.cleared_by) == ("open", "")


def test_a_cleared_one_is_not_cleared_twice(session, a_correction):
    mine = a_correction(ClearsBy.OWN_WORD)
    actions.clear_correction(session, *mine, TODAY)
    with pytest.raises(RuleBroken, match="cleared already, by me"):
        actions.clear_correction(session, *mine, TODAY)


def test_words_put_right_keep_what_was_written_before(session, a_correction):
    build_id, correction_id = a_correction(ClearsBy.REVISIT)
    changed = actions.amend_correction(
        session,
        build_id,
        correction_id,
        TODAY,
        "Plates on four studs",
        "",
        CorrectionForm.WRITTEN,
        "",
        ClearsBy.REVISIT,
    )
    assert changed == 1
    (change,) = store.list_correction_changes(session, correction_id)
    assert change.was == "words: Plates on three studs"


def amended(session, ids: tuple[int, int], clears_by: ClearsBy, who_said: str = "") -> int:
    return actions.amend_correction(
        session, *ids, TODAY, "Plates on three studs", "", CorrectionForm.WRITTEN, "", clears_by, who_said=who_said
    )


@pytest.mark.parametrize(
    ("was", "becomes"),
    [
        (ClearsBy.REVISIT, ClearsBy.PICTURE),
        (ClearsBy.REVISIT, ClearsBy.OWN_WORD),
        (ClearsBy.PICTURE, ClearsBy.OWN_WORD),
    ],
)
def test_a_laxer_way_of_clearing_needs_somebody_who_said_so(session, a_correction, was, becomes):
    ids = a_correction(was)
    with pytest.raises(RuleBroken, match="Write down who said"):
        amended(session, ids, becomes, "  ")
    assert store.get_correction(session, *ids).clears_by == was
    assert amended(session, ids, becomes, "the inspector, by message") == 1
    (change,) = store.list_correction_changes(session, ids[1])
    assert (change.was, change.why) == (f"clears by: {was}", "said by the inspector, by message")


def test_a_stricter_way_of_clearing_needs_nobody(session, a_correction):
    ids = a_correction(ClearsBy.OWN_WORD)
    assert amended(session, ids, ClearsBy.REVISIT) == 1
    (change,) = store.list_correction_changes(session, ids[1])
    assert change.why == "put right by me"
