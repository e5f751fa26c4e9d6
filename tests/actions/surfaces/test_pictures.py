"""Where pictures belong and what they fill: saying it twice changes nothing, and an unknown date proves nothing."""

import io

import pytest
from sqlmodel import select

from tests import builders, pictures
from tests.builders import AT
from webapp.photos.actions import set_taken
from webapp.surfaces import actions, store
from webapp.surfaces.models import PicturePlace, SurfaceChange
from webapp.surfaces.rules.owed import SlotState
from webapp.values.errors import NotFound


@pytest.fixture
def build(session):
    return builders.a_build(session)


@pytest.fixture
def east(session, build):
    return builders.a_surface(session, build)


def slot_facts(session, build, slot):
    return store.get_slot(session, build.row_id, slot.row_id)


def test_a_dated_picture_settles_the_slot_on_its_own_day(session, build, east):
    slot, photo = builders.a_slot(session, east), builders.a_photo(session, taken_at="2026-05-09T17:48:00")
    actions.fill_slot(session, slot.row_id, photo.row_id)
    facts = slot_facts(session, build, slot)
    assert facts.settled
    assert facts.settled_on.isoformat() == "2026-05-09"


def test_a_picture_of_unknown_date_leaves_the_slot_owed_until_the_date_is_set(session, build, east):
    slot, photo = builders.a_slot(session, east), builders.a_photo(session)
    actions.fill_slot(session, slot.row_id, photo.row_id)
    assert slot_facts(session, build, slot).state is SlotState.DATE_UNKNOWN
    assert not slot_facts(session, build, slot).settled
    set_taken(session, photo.row_id, "2026-05-09T00:00:00")
    assert slot_facts(session, build, slot).settled


def test_a_date_taken_back_owes_the_picture_again(session, build, east):
    slot, photo = builders.a_slot(session, east), builders.a_photo(session, taken_at="2026-05-09T17:48:00")
    actions.fill_slot(session, slot.row_id, photo.row_id)
    set_taken(session, photo.row_id, None)
    assert not slot_facts(session, build, slot).settled


def test_one_picture_fills_several_slots(session, build, east):
    photo = builders.a_photo(session, taken_at="2026-05-09T17:48:00")
    slots = [builders.a_slot(session, east, number) for number in (1, 2)]
    for slot in slots:
        actions.fill_slot(session, slot.row_id, photo.row_id)
    assert all(slot_facts(session, build, slot).settled for slot in slots)
    assert len(store.list_places(session, build.row_id)) == 1


def test_another_picture_in_a_slot_keeps_the_first_on_record(session, build, east):
    slot = builders.a_slot(session, east)
    first, second = (builders.a_photo(session, taken_at="2026-05-09T17:48:00") for _ in range(2))
    actions.fill_slot(session, slot.row_id, first.row_id)
    actions.fill_slot(session, slot.row_id, second.row_id)
    change = session.exec(select(SurfaceChange)).one()
    assert (change.what_kind, change.was, change.became) == ("slot", str(first.id), str(second.id))


def test_a_picture_that_does_not_show_it_leaves_the_slot_owed(session, build, east):
    slot, photo = builders.a_slot(session, east), builders.a_photo(session, taken_at="2026-05-09T17:48:00")
    actions.fill_slot(session, slot.row_id, photo.row_id)
    actions.empty_slot(session, slot.row_id)
    assert slot_facts(session, build, slot).state is SlotState.OWED
    assert session.exec(select(SurfaceChange)).one().was == str(photo.id)


def test_placing_twice_counts_once(session, build, east):
    photo, item = builders.a_photo(session), builders.an_item(session, east)
    for _ in range(2):
        actions.place_picture(session, build.row_id, photo.row_id, None)
        actions.place_picture(session, build.row_id, photo.row_id, east.row_id)
        actions.place_picture(session, build.row_id, photo.row_id, east.row_id, item.row_id)
    places = store.list_places(session, build.row_id)
    assert {(place.surface_id, place.item_id) for place in places} == {(east.id, None), (east.id, item.id)}
    assert len(places) == 2, "what had no place is not listed beside its place"


def test_a_picture_is_not_placed_in_somebody_else_s_build(session, build, east):
    other = builders.a_build(session, "Boathouse")
    photo, slot = builders.a_photo(session), builders.a_slot(session, east)
    with pytest.raises(NotFound):
        actions.place_picture(session, other.row_id, photo.row_id, east.row_id)
    with pytest.raises(NotFound):
        actions.place_picture(session, other.row_id, photo.row_id, None, slot_id=slot.row_id)
    assert session.exec(select(PicturePlace)).all() == []


def test_a_thing_brings_no_picture_to_a_surface_it_is_not_in(session, build, east):
    north = builders.a_surface(session, build, "N", "North wall")
    item = builders.an_item(session, north)
    with pytest.raises(NotFound, match="another surface"):
        actions.place_picture(session, build.row_id, builders.a_photo(session).row_id, east.row_id, item.row_id)


def test_one_file_that_is_no_picture_takes_no_other_with_it(session, build, settings):
    sent = [(io.BytesIO(pictures.a_jpeg()), "a.jpg"), (io.BytesIO(b"%PDF-1.7"), "plan.pdf")]
    sent += [(io.BytesIO(pictures.a_png()), "b.png"), (io.BytesIO(pictures.a_jpeg()), "a again.jpg")]
    taken = actions.take_in(session, build.row_id, settings.photos, sent, 30, AT)
    assert len(taken.kept) == 2
    assert taken.refused == ("“plan.pdf” is a PDF. JPEG, PNG, WebP and HEIC are taken in.",)
    assert len(store.list_places(session, build.row_id)) == 2
