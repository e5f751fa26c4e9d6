"""What to photograph: offered from what is on the surface, taken up once, declined with a memory."""

from datetime import date

import pytest

from tests import builders
from tests.builders import INCH
from tests.reading import links, soup, words
from webapp.surfaces import actions, store

E = "/builds/bindery/surfaces/E"


@pytest.fixture
def east(database, build):
    with database.writing() as session:
        surface = builders.a_surface(session, build, origin_corner="NE")
        builders.an_item(session, surface, "East receptacle", is_box=True)
        return surface.row_id


def slots(database, build):
    with database.reading() as session:
        return store.list_slots(session, build.id)


def form(client) -> dict[str, object]:
    """As a browser would send the page: what is shown, what is ticked."""
    page = soup(client.get(f"{E}/slots"))
    sent = {"shown": [tag["value"] for tag in page.select("[name=shown]")]}
    for name in ("take", "wish"):
        sent[name] = [tag["value"] for tag in page.select(f"[name={name}][checked]")]
    return sent | {"sent_id": page.select_one("[name=sent_id]")["value"]}


def test_the_page_offers_what_is_owed_all_ticked_and_saves_it_once(client, database, build, east):
    sent = form(client)
    assert {"whole", "third:1", "third:2", "third:3", "item:1", "after:retarder"} <= set(sent["take"])
    assert sent["take"] == sent["shown"], "all are ticked"
    for _ in range(2):
        answer = client.post(f"{E}/slots/these", data=sent)
        assert (answer.status_code, answer.headers["location"]) == (303, f"{E}#owed")
    found = slots(database, build)
    assert [slot.number for slot in found] == list(range(1, len(sent["take"]) + 1))
    assert [slot.made_from for slot in found] == sent["take"]
    box = next(slot for slot in found if slot.made_from == "item:1")
    assert (box.item_id, box.strength, box.picture_set) == (1, "must", "before")
    assert "Picture 5: E1 East receptacle: box open, grounds showing" in words(client.get(E))
    assert not soup(client.get(f"{E}/slots")).select("[name=take]"), "nothing is doubled"


def test_an_unticked_one_is_declined_for_good_and_may_be_owed_after_all(client, database, build, east):
    sent = form(client)
    sent["take"].remove("third:2")
    sent["wish"].append("third:3")
    client.post(f"{E}/slots/these", data=sent)
    found = {slot.made_from: slot for slot in slots(database, build)}
    assert "third:2" not in found
    assert found["third:3"].strength == "wish"
    page = client.get(f"{E}/slots")
    assert "Declined Middle third: 4′ 6″ to 9′ 0″ Not wanted." in words(page)
    assert "could be owed" not in words(client.get(E))
    assert "Before the move" not in words(client.get(E))
    assert client.post(f"{E}/slots/after-all", data={"key": "third:2"}).status_code == 303
    assert slots(database, build)[-1].made_from == "third:2"
    assert client.post(f"{E}/slots/after-all", data={"key": "third:2"}).status_code == 404


def test_what_comes_onto_the_surface_later_is_said_on_its_sheet(client, database, build, east):
    client.post(f"{E}/slots/these", data=form(client))
    with database.writing() as session:
        surface = session.get_one(builders.Surface, east)
        builders.an_item(session, surface, "Panel receptacle", is_box=True, x_nm=60 * INCH)
        builders.an_item(session, surface, "Rail", kind="blocking", service="framing", x_nm=70 * INCH)
    page = client.get(E)
    assert "2 more pictures could be owed: E2 and BL1." in words(page)
    assert links(page)["Choose which"] == f"{E}/slots"


def test_a_line_of_my_own_is_suggested_as_showing_it_and_i_decide(client, database, build, east):
    with database.writing() as session:
        builders.a_slot(session, session.get_one(builders.Surface, east), 1, what="Each box, grounds showing")
    page = client.get(f"{E}/slots")
    assert "Your picture 1 seems to show it: “Each box, grounds showing”" in words(page)
    sent = form(client)
    assert "item:1" in sent["shown"]
    assert "item:1" not in sent["take"]
    client.post(f"{E}/slots/these", data=sent)
    assert "item:1" not in [slot.made_from for slot in slots(database, build)]
    assert "Your picture 1 shows it." in words(client.get(f"{E}/slots"))


def test_a_list_that_changed_meanwhile_is_shown_again_with_the_ticks_as_they_were(client, database, build, east):
    sent = form(client)
    sent["take"].remove("third:1")
    client.post(f"{E}/slots/these", data=form(client) | {"take": ["whole"]})
    answer = client.post(f"{E}/slots/these", data=sent)
    assert answer.status_code == 422
    assert "The list has changed since this page was opened" in words(answer)
    assert [slot.made_from for slot in slots(database, build)] == ["whole"]


def test_nothing_is_offered_of_a_closed_surface(client, database, build, east):
    with database.writing() as session:
        actions.mark_covered(session, east, date(2026, 5, 15), "me", "board", [])
    assert "cannot be taken any more" in words(client.get(f"{E}/slots"))
    assert "could be owed" not in words(client.get(E))


def test_a_moved_thing_leaves_its_picture_as_history_and_owes_a_new_one(client, database, build, east):
    client.post(f"{E}/slots/these", data=form(client))
    box = next(slot for slot in slots(database, build) if slot.item_id == 1)
    with database.writing() as session:
        photo = builders.a_photo(session, made="ready", taken_at="2026-05-10T10:00:00").row_id
        session.get_one(builders.PictureSlot, box.id).photo_id = photo
    moved = {"item": "1", "to": "E", "x": "30 in", "y": "16 in"}
    assert client.post("/builds/bindery/changes", data=moved).status_code == 303
    assert box.id not in [slot.id for slot in slots(database, build)]
    anew = slots(database, build)[-1]
    assert (anew.item_id, anew.strength, anew.photo_id, anew.made_from) == (2, "must", None, "item:2")
    page = client.get(E)
    assert "Before the move Picture 5: East receptacle: box open, grounds showing Taken Sun 10 May" in words(page)
    assert "Before the move of Sat 16 May." in words(page)
    assert links(page)[next(label for label in links(page) if label.startswith("Picture 5"))].endswith(f"/{photo}")


def test_a_stranger_adds_nothing(stranger, database, build, east):
    for path in ("these", "after-all"):
        assert stranger.post(f"{E}/slots/{path}", data={"shown": "whole", "take": "whole"}).status_code in {303, 401}
    assert slots(database, build) == ()
