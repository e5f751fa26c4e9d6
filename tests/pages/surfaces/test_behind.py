"""Sheet W3: years later, what is behind this spot? By surface, height and distance, with every gap admitted."""

from datetime import date
from urllib.parse import parse_qs, urlsplit

import pytest

from tests import builders
from tests.builders import INCH
from tests.reading import field_errors, headings, links, soup, words
from webapp.surfaces.models import Cover, PicturePlace

EAST = "/builds/bindery/surfaces/E/behind"


@pytest.fixture
def wall(database, build):
    """A closed east wall: a receptacle that was moved once, a cable to it, a cleat, a thing without offsets."""
    with database.writing() as session:
        east = builders.a_surface(
            session, build, origin_corner="NE", spacing_nm=16 * INCH, first_stud_nm=12 * INCH, framing="2x4"
        )
        builders.an_opening(session, east, "Entry door", kind="door", x_nm=110 * INCH, y_nm=0, height_nm=82 * INCH)
        line = builders.a_line(session, build, "C02")
        new = builders.an_item(session, east, "Receptacle by the door", x_nm=58 * INCH)
        builders.an_item(
            session,
            east,
            "Receptacle, first place",
            x_nm=30 * INCH,
            replaced_on=date(2026, 5, 12),
            replaced_by_id=new.row_id,
        )
        builders.an_item(
            session,
            east,
            "Cleat, 2x6",
            kind="blocking",
            service="framing",
            x_nm=68 * INCH,
            y_nm=66 * INCH,
            width_nm=32 * INCH,
            note="for the coat rail",
        )
        builders.an_item(session, east, "Old bell wire", x_nm=None, y_nm=None)
        builders.a_run(session, east, (14, 30), (58, 30), (58, 16), line_id=line.row_id)
        session.add(
            Cover(surface_id=east.row_id, covered_on=date(2026, 5, 14), layers="board", evidence="[]", at=builders.AT)
        )
        return east.row_id


def ask(client, x="57", y="26"):
    return client.get(EAST, params={"x": x, "y": y})


def test_what_is_there_is_told_nearest_first_with_distance_and_direction(client, wall):
    """The cable passes at 58 in and is half an inch wide: 3/4 in from 57. The box begins 8 1/2 in below."""
    page = ask(client)
    assert "A cable" in headings(page)
    assert "C02 cable: ¾″ right." in words(page)
    (row,) = soup(page).select("table tbody tr")
    assert row.get_text(" ", strip=True) == "C02 cable 12-2 to the bench 4′ 10″ 2′ 2″ ¾″ right"
    assert "Receptacle by the door" not in row.get_text()
    assert "a hand’s breadth, 4″" in words(page)


def test_studs_openings_and_bands_frame_the_answer(client, wall):
    said = words(ask(client))
    assert "The nearest studs have their middle at 3′ 8″ (1′ 1″ left) and at 5′ 0″ (3″ right)" in said
    assert "computed from the first stud and the spacing, not measured" in said
    assert "The spot lies in the band of C02 cable: no screws." in said
    assert "“Entry door” is 2″ right; more framing stands around it." in words(ask(client, "108", "40"))
    assert "This spot lies in the opening “Entry door”." in words(ask(client, "120", "40"))


def test_when_nothing_is_on_record_it_says_so_and_that_it_is_no_promise(client, wall):
    page = ask(client, "20", "90")
    assert "Nothing is on record here" in headings(page)
    said = words(page)
    assert "Nothing within a hand’s breadth, 4″. The nearest is" in said
    assert "That is no promise." in said and "Use a detector, switch off, drill shallow." in said
    assert "NEC 300.4(A)(1) and (D)" in said and "Your local authority and licensed people decide." in said


def test_what_was_moved_away_is_told_with_its_day_and_where_it_is_now(client, wall):
    page = ask(client, "30", "16")
    section = soup(page).find("h2", string="Was here before").parent.get_text(" ", strip=True)
    assert "Receptacle, first place was here until Tue 12 May" in section
    assert "Moved to 4′ 10″ along, 1′ 4″ above the finished floor." in section
    assert "Nothing is on record here" in headings(page)


def test_gaps_are_admitted(client, database, build, wall):
    with database.writing() as session:
        photo = builders.a_photo(session)
        session.add(PicturePlace(build_id=build.row_id, photo_id=photo.row_id, surface_id=wall, placed_at=builders.AT))
    said = words(ask(client))
    assert "1 thing here has no offsets Old bell wire." in said
    assert "1 picture has no date By itself it does not show what was there before it was closed." in said
    assert "How deep it lies" in said
    assert "Closed Thu 14 May by me board." in said


def test_bands_and_blocking_are_told_in_words(client, wall):
    said = words(ask(client)).replace("\xa0", " ")
    assert "C02 cable" in said
    assert "4′ 7¾″ to 5′ ¼″ along, 1′ 1¾″ to 2′ 8¼″ up" in said
    assert "Cleat, 2x6: for the coat rail" in said
    assert "4′ 4″ to 7′ 0″ along" in said


def test_a_mistype_is_said_beside_its_field_and_kept(client, wall):
    page = client.get(EAST, params={"x": "long", "y": "300"})
    assert page.status_code == 422
    assert set(field_errors(page)) == {"x", "y"}
    assert "lies outside: the height of this surface is 9′ 0″" in field_errors(page)["y"]
    assert [soup(page).select_one(f"input[name={name}]:not([type=hidden])")["value"] for name in "xy"] == [
        "long",
        "300",
    ]
    half = client.get(EAST, params={"x": "57", "y": ""})
    assert field_errors(half) == {"y": "Say also how high it is."}


def test_another_wall_can_be_chosen_beside_the_spot(client, wall):
    answer = client.get("/builds/bindery/behind", params={"surface": "e", "x": "4' 9\"", "y": "26"})
    assert answer.status_code == 303
    to = urlsplit(answer.headers["location"])
    assert (to.path, parse_qs(to.query)) == (EAST, {"x": ["4' 9\""], "y": ["26"]})
    assert client.get(answer.headers["location"]).status_code == 200


def test_a_tap_on_the_drawing_is_a_spot_without_any_script(client, wall):
    """The drawing is 350 units wide with 18 units to each side of 161 in; shown 344 wide, the middle is the middle."""
    answer = client.get(EAST, params={"phone.x": "172", "phone.y": "100"})
    to = urlsplit(answer.headers["location"])
    assert (answer.status_code, to.path, to.fragment) == (303, EAST, "answer")
    asked = parse_qs(to.query)
    assert asked["x"] == ["6' 8\""], "half of 161 in, to the inch"
    closer = client.get(EAST, params={"closer": "1", "x": "80", "y": "50", "phone.x": "205", "phone.y": "100"})
    assert abs(inches(parse_qs(urlsplit(closer.headers["location"]).query)["x"][0]) - 80) <= 1, (
        "the middle of the close-up"
    )
    assert client.get(EAST, params={"phone.x": "many", "phone.y": "1"}).status_code == 422


def inches(text: str) -> int:
    feet, _, rest = text.partition("' ")
    return 12 * int(feet) + int(rest.rstrip('"'))


def test_pictures_pinned_near_come_first_and_before_and_after_insulation_are_apart(client, database, build, wall):
    with database.writing() as session:
        item = builders.an_item(
            session, session.get(builders.Surface, wall), "Switch", kind="switch", x_nm=60 * INCH, y_nm=46 * INCH
        )

        def put(caption, **more):
            photo = builders.a_photo(session, caption=caption, taken_at="2026-05-09T10:00:00")
            session.add(
                PicturePlace(
                    build_id=build.row_id, photo_id=photo.row_id, surface_id=wall, placed_at=builders.AT, **more
                )
            )

        put("whole wall", stage="before")
        put("of the switch", stage="before", item_id=item.row_id)
        put("pinned", stage="before", x_nm=60 * INCH, y_nm=30 * INCH)
        put("pinned elsewhere", stage="before", x_nm=150 * INCH, y_nm=30 * INCH)
        put("batts in", stage="after")
    page = ask(client)
    shown = [str(tag.find_previous("h3").string) for tag in soup(page).select("ul.choose li")]
    assert shown == ["Before insulation"] * 3 + ["After insulation"]
    said = [tag.get_text(" ", strip=True) for tag in soup(page).select("ul.choose li > p")]
    assert [line.split(".")[0] for line in said] == [
        "Pinned 5″ away",
        "Shows E2, Switch",
        "Of this surface",
        "Of this surface",
    ]


def test_the_plan_leads_to_each_surface_and_so_do_today_and_the_surface_itself(client, wall):
    page = client.get("/builds/bindery/behind")
    assert links(page)["1 East wall closed Thu 14 May"] == EAST
    assert f'href="{EAST}" aria-label="1, East wall"' in page.text
    assert EAST in links(client.get("/builds/bindery/today")).values()
    assert EAST in links(client.get("/builds/bindery/surfaces/E")).values()
    assert "W3 Behind this wall" in links(page, ".tb")


def test_a_surface_of_unknown_size_says_what_is_needed_and_an_open_one_to_go_and_look(client, database, build):
    with database.writing() as session:
        builders.a_surface(session, build, "X", "Gable", length_nm=None)
    page = client.get("/builds/bindery/surfaces/X/behind", params={"x": "10", "y": "10"})
    assert links(page)["Say how large it is"] == "/builds/bindery/surfaces/X/edit"
    assert "it is open. Go and look." in words(page)


def test_the_other_face_of_the_wall_is_looked_through(client, database, build, wall):
    """103 in from the other end is 58 in from this one: 161 in less 103 in."""
    with database.writing() as session:
        back = builders.a_surface(session, build, "H", "Hall side", position=2, back_of_id=wall, facing="W")
        builders.an_item(session, back, "Hall switch", kind="switch", x_nm=103 * INCH, y_nm=50 * INCH)
    said = words(ask(client, "58", "50"))
    assert "On the other face of this wall Hall switch: here Hall side" in said


def test_nobody_else_gets_an_answer(stranger, client, wall):
    for path in (EAST, "/builds/bindery/behind"):
        assert stranger.get(path, follow_redirects=False).status_code in {303, 401}
    assert client.get("/builds/bindery/surfaces/Q/behind").status_code == 404
