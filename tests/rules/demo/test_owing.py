"""What of the scenario goes into the record: needs that can be typed, shots where they can still be taken."""

import pytest

from tests.conftest import SATURDAY
from webapp.demo.files.packaged import read_packaged
from webapp.demo.rules.content import Content, read_content
from webapp.demo.rules.owing import goes_before, needs_kept, shot_surfaces
from webapp.demo.rules.telling import SHOWN, begins
from webapp.demo.rules.visits import holds_cover, renews_permit, window_of


@pytest.fixture(scope="module")
def content() -> Content:
    return read_content(read_packaged(), SATURDAY, str)


def test_goods_and_pictures_before_insulation_are_not_typed(content):
    left_out = {need.id for need in content.needs} - {need.id for need in needs_kept(content)}
    kinds = {need.id: (need.needs_kind, need.needs) for need in content.needs}
    assert left_out
    assert all(kinds[name][0] == "goods" or kinds[name][1].endswith("-before") for name in left_out)
    assert {kinds[need.id][1] for need in needs_kept(content) if need.needs_kind == "pictures"} >= {
        "E-after",
        "S-after",
    }


def test_a_shot_of_work_that_comes_after_the_closing_is_not_owed_before_it(content):
    surfaces = shot_surfaces(content)
    assert surfaces["F20"] == ("E",)
    assert surfaces["F37"] == ()  # the first light, long after the ceiling is closed
    assert surfaces["F44"] == ()  # the first cleat on the closed north wall
    assert surfaces["F10"] == ("E",)  # the feeder came out of a trench that was filled by then


def test_a_shot_goes_before_the_task_that_was_said_to_need_it(content):
    tasks = {shot.id: goes_before(shot, content) for shot in content.footage}
    assert tasks["F21"] == "SH13"  # the window going in is filmed before it is foamed, not before it goes in
    assert tasks["F20"] == "BO09"
    assert tasks["F37"] == ""


def test_only_stages_on_the_card_move_the_building_permit_and_screws_are_looked_at_after_the_board(content):
    building = [row for row in content.inspections if row.permit == "BLD"]
    assert {row.id for row in building if renews_permit(row)} == {"ISLB", "IFRM", "IFBL"}
    assert {row.id for row in content.inspections if not holds_cover(row)} == {"IBRD", "IFEL", "IFPL", "IFBL"}


def test_the_hours_of_a_visit_are_taken_out_of_its_note():
    assert window_of("South again. Window 09:00 to 12:00.") == ("09:00 to 12:00", "South again.")
    assert window_of("Nothing was looked at.") == ("", "Nothing was looked at.")


def test_every_published_picture_is_free_of_what_is_private_and_from_its_episode_or_before(content):
    pictures = {row.id: row for row in content.pictures}
    for episode in content.episodes:
        for name in SHOWN.get(episode.number, ()):
            assert (pictures[name].private, pictures[name].public) == ("", "if approved")
            assert pictures[name].taken_day <= episode.to_day


def test_the_episode_in_the_making_begins_after_the_last_one_was_cut(content):
    *out, making = content.episodes
    assert begins(making, content.episodes) > max(episode.to_day for episode in out)
    assert [begins(episode, content.episodes) for episode in out] == [episode.from_day for episode in out]
