"""What the record says of one wall: everything still owed before it is closed, and what takes it off the list."""

from datetime import date

from sqlmodel import select

from tests import builders
from tests.eastwall import a_photo
from webapp.readiness.rules import keys
from webapp.readiness.rules.answers import cover_answer
from webapp.surfaces.models import Cover, Item, Lifted

FOUR = [
    "Seal the hole in the plate",
    "Shot: sealing the duct sleeve",
    "Picture 6: drain and supply",
    "Picture 7: duct sleeve",
]


def test_the_evening_before_board_exactly_four_things_stop_the_wall(wall, owed):
    assert sorted(owed(wall.surface)) == sorted(FOUR)
    assert owed(wall.surface, hard=False) == []


def test_the_closing_task_waits_for_the_same_four(wall, site):
    network = site().network
    closing = {need.node.title for need in network.unmet(keys.task(wall.board.row_id))}
    assert closing == set(FOUR)
    assert not network.can_start(keys.task(wall.board.row_id))


def test_what_only_the_closing_task_needs_stops_the_wall_too(session, wall, owed):
    furring = builders.a_task(session, wall.phase, "Furring, east", position=3)
    builders.a_need(session, wall.board, furring)
    assert "Furring, east" in owed(wall.surface)


def test_my_own_word_clears_a_small_item_and_nothing_less_does(session, wall, owed):
    wall.correction.state = "done, to be seen"
    assert "Seal the hole in the plate" in owed(wall.surface)
    wall.correction.state, wall.correction.cleared_on = "cleared", date(2026, 5, 16)
    assert "Seal the hole in the plate" not in owed(wall.surface)


def test_a_picture_sent_waits_for_the_inspectors_answer(session, wall, site):
    wall.correction.clears_by, wall.correction.state = "picture sent", "done, picture sent, no answer yet"
    need = next(n for n in site().network.unmet(keys.cover(wall.surface.row_id)) if n.node.kind == "correction")
    assert need.node.waits_for == "inspector"
    assert "Waits for the inspector's answer" in need.node.detail


def test_a_correction_put_right_frees_only_the_re_visit(session, wall, site):
    wall.passed.kind = "failed"
    plates = builders.a_correction(session, wall.electrical_visit, wall.passed, clears_by="re-visit", number=2)
    visit = keys.inspection(wall.electrical.row_id, wall.surface.row_id)
    assert not site().network.can_start(visit)
    plates.state, plates.done_on = "done, to be seen", date(2026, 5, 16)
    found = site().network
    assert found.can_start(visit)
    assert found.node(visit).ready_says == "Ask for the visit: Rough electrical, E again"
    assert any(need.node.key == visit for need in found.unmet(keys.cover(wall.surface.row_id)))


def test_small_items_that_the_inspector_will_see_again_keep_the_wall_open(session, wall, owed):
    wall.correction.clears_by = "re-visit"
    wall.correction.state = "done, to be seen"
    assert "Framing, E" in owed(wall.surface)
    assert "Seal the hole in the plate" not in owed(wall.surface)


def test_a_correction_that_names_no_wall_stops_every_wall_of_its_inspection(session, wall, owed):
    wall.correction.surface_id = None
    assert "Seal the hole in the plate" in owed(wall.surface)


def test_an_inspection_of_the_whole_building_holds_every_wall_if_it_is_said_to(session, wall, owed):
    whole = builders.an_inspection(session, wall.permit, "Shell", position=9)
    assert "Shell" in owed(wall.surface)
    whole.holds_cover = False
    assert "Shell" not in owed(wall.surface)


def test_part_passed_is_not_passed(session, wall, owed):
    wall.passed.kind, wall.passed.part = "part passed", "the left half"
    assert "Rough electrical, E" in owed(wall.surface)


def test_a_withdrawn_result_locks_the_wall_again(session, wall, owed):
    wall.passed.state, wall.passed.changed_by = "withdrawn", "theirs"
    assert "Rough electrical, E" in owed(wall.surface)


def test_a_closed_wall_shows_what_was_taken_back(session, here, wall, site):
    _settle(session, wall)
    session.add(Cover(surface_id=wall.surface.row_id, covered_on=date(2026, 5, 15), evidence="[]", at=builders.AT))
    wall.passed.state = "withdrawn"
    found = site()
    answer = cover_answer(found.network, keys.cover(wall.surface.row_id), "East wall")
    assert answer.sentence == "East wall: covered, 1 owed, a hard stop."
    assert not answer.may_be_covered
    assert not found.states[wall.surface.row_id].seen


def _settle(session, wall) -> None:
    """Everything but the results themselves."""
    wall.correction.state, wall.correction.cleared_on = "cleared", date(2026, 5, 15)
    wall.shot.state, wall.shot.filmed_on = "filmed", date(2026, 5, 15)
    for slot in wall.slots[5:]:
        slot.photo_id = a_photo(session, 100 + slot.number).row_id


def test_with_everything_settled_it_may_be_covered(session, wall, site):
    _settle(session, wall)
    found = site()
    answer = cover_answer(found.network, keys.cover(wall.surface.row_id), "East wall")
    assert answer.may_be_covered
    assert answer.sentence == "East wall: nothing owed."
    assert found.states[wall.surface.row_id].may_be_covered
    assert found.network.can_start(keys.task(wall.board.row_id))


def test_a_picture_of_unknown_date_is_still_owed(session, wall, owed):
    wall.slots[5].photo_id = a_photo(session, 106, taken_at=None).row_id
    assert "Picture 6: drain and supply" in owed(wall.surface)


def test_a_picture_let_go_with_a_reason_is_no_stop_and_stays_listed(session, wall, owed, site):
    line = Lifted(
        surface_id=wall.surface.row_id,
        node_key=keys.slot(wall.slots[6].row_id),
        what="Picture 7: duct sleeve",
        why="Camera flat, the light gone",
        on_day=date(2026, 5, 16),
        at=builders.AT,
    )
    session.add(line)
    assert "Picture 7: duct sleeve" not in owed(wall.surface)
    assert [lifted.why for lifted in site().record.lifted.values()] == ["Camera flat, the light gone"]


def test_boxes_not_counted_stop_the_wall(session, wall, owed):
    wall.surface.boxes_before = None
    assert "Count the boxes" in owed(wall.surface)


def test_a_hidden_thing_that_was_not_measured_stops_the_wall_until_it_is(session, wall, owed):
    loose = builders.an_item(session, wall.surface, "Drain", y_nm=None)
    assert "Measure drain" in owed(wall.surface)
    for label in ("Vent", "Cold water", "Hot water"):
        builders.an_item(session, wall.surface, label, x_nm=None)
    assert "Measure drain, vent and 2 more things" in owed(wall.surface)
    for item in session.exec(select(Item).where(Item.surface_id == wall.surface.row_id)).all():
        item.x_nm = item.y_nm = 16 * builders.INCH
    assert loose.y_nm == 16 * builders.INCH
    assert not [title for title in owed(wall.surface) if title.startswith("Measure")]


def test_what_was_taken_out_again_is_not_measured_any_more(session, wall, owed):
    builders.an_item(session, wall.surface, "Drain", x_nm=None, replaced_on=date(2026, 5, 10))
    assert not [title for title in owed(wall.surface) if title.startswith("Measure")]


def test_an_open_danger_question_stops_and_a_better_way_is_a_wish(session, here, wall, owed):
    danger = builders.a_question(session, here, wall.surface)
    builders.a_question(session, here, wall.surface, words="Would two screws do?", kind="better way")
    assert "Can a screw reach the cable?" in owed(wall.surface)
    assert owed(wall.surface, hard=False) == ["Would two screws do?"]
    danger.settled_on, danger.answer = date(2026, 5, 16), "2 in clear"
    assert "Can a screw reach the cable?" not in owed(wall.surface)
