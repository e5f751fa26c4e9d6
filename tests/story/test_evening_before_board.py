"""Scenario "The evening before board": E in sun with gloves. What is missing, and may it be covered?"""

import pytest

from tests.eastwall import an_east_wall
from tests.pictures import a_jpeg
from tests.reading import headings, links, soup, words
from tests.story.bindery import BASE, answer_of, owed, saved

E = f"{BASE}/surfaces/E"


@pytest.fixture
def wall(database, build):
    with database.writing() as session:
        made = an_east_wall(session, build)
        return {"slots": [slot.row_id for slot in made.slots], "shot": made.shot.row_id}


def shoot(client, number: int, taken: str) -> None:
    """From the line on the list to the camera and back."""
    sheet = links(client.get(f"{E}/before-cover"))
    href = next(href for label, href in sheet.items() if label.startswith(f"Picture {number}:"))
    page = soup(client.get(href))
    form = next(form for form in page.select("form") if form.select_one("input[type=file]"))
    chosen = form.select_one("select[name=slot] option[selected]") or form.select_one("[name=slot]")
    data = {"slot": chosen["value"], "surface": "E"}
    files = {"pictures": (f"{number}.jpg", a_jpeg(taken=taken), "image/jpeg")}
    saved(client.post(form["action"], data=data, files=files))


def test_one_screen_says_no_and_lists_exactly_the_four(client, wall):
    page = client.get(f"{E}/before-cover")
    assert headings(page)[0] == "Do not cover"
    assert owed(client, "E") == [
        "Seal the hole in the plate",
        "Picture 6: drain and supply",
        "Picture 7: duct sleeve",
        "Shot: sealing the duct sleeve",
    ]
    assert "Boxes counted: 4" in words(page)


def test_the_pictures_are_shot_straight_from_the_list(client, wall):
    shoot(client, 6, "2026:05:16 17:48:00")
    assert "Picture 6: drain and supply" not in owed(client, "E")
    shoot(client, 7, "")
    assert "Picture 7: duct sleeve" in owed(client, "E"), "a picture of unknown date proves nothing"


def test_skipping_needs_a_reason_that_stays_and_after_the_last_it_may_be_covered(client, wall):
    shoot(client, 6, "2026:05:16 17:48:00")
    shoot(client, 7, "2026:05:16 17:52:00")
    sheet = links(client.get(f"{E}/before-cover"))
    correction = next(href for label, href in sheet.items() if label.startswith("Seal the hole"))
    mine = {"on": "2026-05-16", "who": "me", "said": "own word as agreed", "is_done": "yes"}
    saved(client.post(f"{correction}/clear", data=mine))
    assert owed(client, "E") == ["Shot: sealing the duct sleeve"]

    skip = {"by": "me", "what": f"shot:{wall['shot']}", "on": "today"}
    assert client.post(f"{E}/let-go", data=skip | {"why": ""}).status_code == 422
    assert answer_of(client, "E") == "Do not cover"
    saved(client.post(f"{E}/let-go", data=skip | {"why": "Camera battery flat and the light gone"}))
    page = client.get(f"{E}/before-cover")
    assert headings(page)[0] == "May be covered"
    told = words(page)
    for line in (
        "Rough electrical passed my note Thu 7 May",
        "Insulation passed my note Fri 15 May",
        "Pictures 7 of 7",
    ):
        assert line in told
    assert "“Camera battery flat and the light gone”" in told

    saved(client.post(f"{E}/cover", data={"on": "16 May 2026"}))
    assert "Camera battery flat and the light gone" in words(client.get(f"{E}/before-cover")), "it stays"
