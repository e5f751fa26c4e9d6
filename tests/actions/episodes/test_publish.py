"""Beginning, keeping, publishing and correcting an episode."""

from datetime import date

import pytest
from sqlalchemy import select
from sqlmodel import col

from tests import builders
from webapp.audience import store as audience
from webapp.core.database import rows
from webapp.episodes import actions, store
from webapp.episodes.models import EpisodeChange
from webapp.episodes.rules.desk import Desk, PictureWords
from webapp.episodes.rules.drafting import DONE, FactRef, Sentence
from webapp.plan.store import get_build
from webapp.values.errors import NotFound, RuleBroken

SATURDAY = date(2026, 5, 16)
WORDS = Desk("South in two halves", date(2026, 5, 1), None, "It **held**.", "", True, "hidden")


@pytest.fixture
def making(session, settings):
    """A build with episode 1 in the making and one picture chosen, described and looked over."""
    row = builders.a_build(session)
    build = get_build(session, row.slug)
    number = actions.begin_episode(session, build.id, date(2026, 5, 1))
    actions.keep(session, build, number, WORDS)
    photo_id = builders.a_picture(session, row, settings.photos)
    actions.choose_picture(session, build, number, photo_id)
    actions.describe_picture(session, build, number, PictureWords(photo_id, "East", "Open studs", True))
    return build, photo_id


def published(session, build, number=1):
    return audience.get_episode(session, audience.get_build(session, build.slug).id, number)


def publish(session, settings, build, number=1):
    actions.publish(session, settings.photos, build, number, (), SATURDAY)


def test_only_one_episode_is_in_the_making(session, making):
    build, _ = making
    with pytest.raises(RuleBroken, match="Episode 1 is in the making"):
        actions.begin_episode(session, build.id, SATURDAY)


def test_publishing_freezes_a_copy_and_begins_the_next_one_the_day_after(session, settings, making):
    build, _ = making
    publish(session, settings, build)
    copy = published(session, build)
    assert copy.view.body_html == "<p>It <strong>held</strong>.</p>\n"
    assert (copy.view.from_day, copy.view.to_day) == (date(2026, 5, 1), SATURDAY)
    upcoming = store.in_the_making(session, build.id)
    assert upcoming is not None and (upcoming.number, upcoming.from_day) == (2, date(2026, 5, 17))


def test_the_pictures_are_on_disk_in_two_sizes_under_names_that_say_nothing(session, settings, making):
    build, _ = making
    publish(session, settings, build)
    files = sorted(path.name for path in (settings.photos / "public").iterdir())
    assert len(files) == 2 and len({name.partition("-")[0] for name in files}) == 1
    (picture,) = published(session, build).view.pictures
    assert picture.src.rpartition("/")[2] in files and (picture.caption, picture.alt) == ("East", "Open studs")


def test_what_is_missing_is_refused_whole_and_nothing_is_put_up(session, settings, making):
    build, photo_id = making
    actions.keep(session, build, 1, Desk("", date(2026, 5, 1), None, "", "", True, "hidden"))
    actions.describe_picture(session, build, 1, PictureWords(photo_id, "", "", False))
    with pytest.raises(RuleBroken) as refused:
        publish(session, settings, build)
    assert [reason.sentence for reason in refused.value.verdict.reasons] == [
        "It has no title",
        "There is no text",
        "Picture 1 has no words",
        "Picture 1 is not looked over",
    ]
    assert audience.find_build(session, build.slug) is None
    assert not (settings.photos / "public").exists()


def test_a_picture_whose_original_is_gone_is_named(session, settings, making):
    build, _ = making
    for path in (settings.photos / "originals").rglob("*"):
        if path.is_file():
            path.unlink()
    with pytest.raises(RuleBroken, match="Picture 1 cannot be made ready"):
        publish(session, settings, build)
    assert audience.find_build(session, build.slug) is None


def test_what_went_out_stays_as_it_was(session, settings, making):
    build, photo_id = making
    publish(session, settings, build)
    for change in (
        lambda: actions.keep(session, build, 1, WORDS),
        lambda: actions.take_over(session, build, 1, ()),
        lambda: actions.choose_picture(session, build, 1, photo_id),
        lambda: actions.leave_out(session, build, 1, photo_id),
        lambda: publish(session, settings, build),
    ):
        with pytest.raises(RuleBroken, match="Episode 1 went out and stays as it was"):
            change()


def test_a_correction_is_dated_and_moves_only_what_says_updated(session, settings, making):
    build, _ = making
    publish(session, settings, build)
    before = published(session, build)
    actions.add_correction(session, build, 1, "South was held.", SATURDAY)
    after = published(session, build)
    assert [(one.number, one.day, one.words) for one in after.view.corrections] == [(1, SATURDAY, "South was held.")]
    assert after.updated_at > before.updated_at
    assert (after.entry_id, after.published_at, after.view.body_html) == (
        before.entry_id,
        before.published_at,
        before.view.body_html,
    )


def test_an_episode_in_the_making_has_nothing_to_correct(session, making):
    build, _ = making
    with pytest.raises(NotFound):
        actions.add_correction(session, build, 1, "South was held.", SATURDAY)


def test_a_text_that_is_replaced_stays_readable_and_an_unchanged_one_is_not_kept_twice(session, making):
    build, _ = making
    actions.keep(session, build, 1, WORDS)
    assert rows(session, select(col(EpisodeChange.was))) == []
    sentence = Sentence("Pulled the runs.", DONE, (FactRef("Done", "Pulled", "/t/1"),))
    actions.take_over(session, build, 1, (sentence,))
    assert store.get_episode(session, build.id, 1).body_md == "## What was done\n\nPulled the runs.\n"
    assert [tuple(row) for row in rows(session, select(col(EpisodeChange.was)))] == [("It **held**.",)]


def test_a_picture_of_another_build_cannot_be_chosen(session, settings, making):
    build, _ = making
    other = builders.a_build(session, "Boathouse")
    body = builders.pictures.a_jpeg(taken="2026:05:01 08:00:00")
    foreign = builders.a_picture(session, other, settings.photos, body)
    with pytest.raises(NotFound):
        actions.choose_picture(session, build, 1, foreign)


def test_choosing_twice_changes_nothing_and_leaving_out_keeps_the_picture(session, making):
    build, photo_id = making
    actions.choose_picture(session, build, 1, photo_id)
    episode = store.get_episode(session, build.id, 1)
    assert [(one.photo_id, one.looked_over) for one in store.list_pictures(session, episode.id)] == [(photo_id, True)]
    actions.leave_out(session, build, 1, photo_id)
    assert store.list_pictures(session, episode.id) == ()
    assert store.is_offered(session, build.id, photo_id)


def test_the_cautions_of_the_work_shown_go_out_with_it(session, settings, making):
    build, _ = making
    phase = builders.a_phase(session, session.get_one(builders.Build, build.id))
    task = {"state": "done", "done_on": date(2026, 5, 9)}
    builders.a_task(session, phase, "Pull the runs", kind="wiring", **task)
    builders.a_task(session, phase, "Pull more runs", kind="wiring", **task)
    builders.a_task(session, phase, "Set the tub", kind="plumbing", state="done", done_on=date(2026, 1, 9))
    builders.a_task(session, phase, "Board", kind="board", **task)
    publish(session, settings, build)
    found = [caution.heading for caution in published(session, build).view.cautions]
    assert "Electricity: off, locked, proved dead" in found and "Lifting board" in found
    assert found[0] == "Ladders and falls", "what most of the work calls for comes first"
    assert "Foam, solvents and dust" not in found, "the tub was set before the first day of it"
    assert len(found) == len(set(found))
    assert all(caution.source for caution in published(session, build).view.cautions)
