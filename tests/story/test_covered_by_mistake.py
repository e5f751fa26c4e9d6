"""Scenario "Covered by mistake": S failed, and its lower half was boarded on Sunday night."""

from datetime import date

import pytest
from sqlmodel import select

from tests import builders
from tests.pictures import a_jpeg
from tests.reading import field_errors, headings, links, soup, words
from tests.story.bindery import BASE, answer_of, lay_out, owed, roots, said, saved
from webapp.inspections.models import Inspection
from webapp.surfaces.models import PicturePlace, PictureSlot, Surface

S = f"{BASE}/surfaces/S"
SUNDAY = "2026-05-10"
COVERED = {
    "extent": "the lower half",
    "on": SUNDAY,
    "who": "me and a helper",
    "layers": "half-inch board",
    "how": "Sunday night, the board lay there",
    "hours": "3",
}


@pytest.fixture
def ground(client, database, build):
    """Rough electrical failed on S; one picture and one offset of it are there, one picture is owed."""
    with database.writing() as session:
        made = lay_out(session, build)
        south = session.get_one(Surface, made.walls["S"])
        builders.an_item(session, south, "Bench receptacle", from_corner="the SE corner")
        photo = builders.a_photo(session, taken_at="2026-05-08T17:00:00")
        builders.a_slot(session, south, 1, what="whole wall", photo_id=photo.row_id)
        builders.a_slot(session, south, 2, what="left third")
        session.add(
            PicturePlace(build_id=build.row_id, photo_id=photo.row_id, surface_id=south.row_id, placed_at=builders.AT)
        )
    sent = {
        "day": "2026-05-08",
        "day_right": "yes",
        **said(made, S="failed"),
        "words_1": "Plates on three studs",
        "on_1": made.walls["S"],
    }
    saved(client.post(f"{BASE}/visits/{made.asked['IREL']}/result", data=sent))
    return made


@pytest.fixture
def covering(client, ground) -> str:
    """The address of its sheet."""
    return saved(client.post(f"{S}/covered-already", data=COVERED)).headers["location"]


def passed(client, database, ground, code: str, day: str = "2026-05-16", place: str = "S") -> None:
    """A visit came and passed this one surface."""
    with database.writing() as session:
        inspection = session.get_one(Inspection, ground.inspections[code])
        visit = builders.a_visit(session, inspection, date(2026, 5, 16), outcome="asked").row_id
    saved(client.post(f"{BASE}/visits/{visit}/result", data={"day": day, **said(ground, **{place: "passed"})}))


def test_the_way_to_it_stands_on_the_sheet_that_says_no(client, ground):
    way = links(client.get(f"{S}/before-cover"))["It is covered already"]
    page = client.get(way)
    assert headings(page)[0] == "South wall is covered already"
    told = words(page)
    assert "Nothing passes by this and nothing is lost" in told
    assert "Plates on three studs" in told and "Picture: whole wall" in told and "Bench receptacle: 1′ 2″" in told


def test_saving_it_says_plainly_it_was_not_cleared_and_passes_nothing(client, ground, covering):
    page = client.get(f"{S}/before-cover")
    assert headings(page)[0] == "Covered, not cleared"
    assert soup(page).select_one(".verdict.no")
    assert owed(client, "S")[0] == "Covered by mistake: the lower half"
    assert {"Rough electrical, S", "Plates on three studs", "Framing, S", "Insulation, S"} <= set(owed(client, "S"))
    assert client.post(f"{S}/cover", data={"on": "today"}).status_code == 409
    assert words(client.get(f"{BASE}/surfaces")).count("Covered by mistake, not cleared") == 1
    assert "Covered, not cleared" in words(client.get(f"{BASE}/before-cover"))


def test_what_was_owed_and_what_is_on_hand_is_frozen_with_it(client, ground, covering):
    told = words(client.get(covering))
    assert "South wall, the lower half, covered Sunday 10 May 2026 by me and a helper, half-inch board." in told
    for line in ("Plates on three studs", "Picture: whole wall my picture 8 May 2026", "Bench receptacle: 1′ 2″ from"):
        assert line in told
    assert "How it came: Sunday night, the board lay there" in told
    client.post(f"{S}/items", data={"label": "Added later", "x": "20", "y": "20"})
    assert "Added later" in words(client.get(S), "#hidden")
    assert "Added later" not in words(client.get(covering), "table")


def test_the_work_of_it_is_a_task_that_today_and_what_stops_it_show(client, ground, covering):
    work = "Ask the inspector about S, or open it up"
    assert work in words(client.get(f"{BASE}/today?time=240&all=1"))
    assert work in roots(client, f"phase={ground.phases['Board']}")
    assert "3 h" in words(
        client.get(links(client.get(covering))[f"{work} The task: start it, finish it, log hours on it."])
    )


def test_its_hours_and_its_cost_stand_with_it(client, ground, covering):
    task = links(client.get(covering))["Time and cost so far"]
    assert "No hours logged, USD 0.00 spent." in words(client.get(task))
    saved(client.post(f"{covering}/cost", data={"total": "36.80", "what": "Two sheets of board", "day": "today"}))
    day = {"day": "2026-05-16", "worked": task.split("/")[-2], "own": "2", "done": "Took a strip of board off"}
    saved(client.post(f"{BASE}/workdays/log", data=day))
    told = words(client.get(task))
    assert "2 h my own logged, USD 36.80 spent." in told and "Two sheets of board" in told
    assert "Two sheets of board" in words(client.get(f"{BASE}/spend"))


def test_the_steps_are_written_down_and_settle_nothing_by_themselves(client, ground, covering):
    asked = {"kind": "asked", "on": "2026-05-11", "who": "the inspector, by telephone", "words": "may it stay?"}
    saved(client.post(f"{covering}/steps", data=asked))
    answer = {"kind": "answered", "on": "2026-05-12", "who": "the inspector", "words": "cut me a window at the box"}
    paper = {"paper": ("slip.jpg", a_jpeg(), "image/jpeg")}
    saved(client.post(f"{covering}/steps", data=answer, files=paper))
    saved(client.post(f"{covering}/steps", data={"kind": "opened", "on": "2026-05-13", "words": "a strip"}))
    page = client.get(covering)
    assert "Asked Mon 11 May The inspector, by telephone: may it stay?" in words(page)
    assert "paper" in links(page)
    assert answer_of(client, "S") == "Covered, not cleared"
    assert "Waits for: inspector" in words(client.get(f"{S}/before-cover"), ".stops")


@pytest.mark.parametrize(
    ("sent", "field", "sentence"),
    [
        ({"kind": ""}, "kind", "Choose what was done."),
        ({"kind": "asked", "on": "2026-05-11"}, "who", "Write who"),
        ({"kind": "opened", "on": "2026-05-09"}, "on", "It was covered on 10 May 2026"),
        ({"kind": "opened", "on": "2026-05-17"}, "on", "still to come"),
    ],
)
def test_a_step_that_cannot_be_comes_back_as_typed(client, covering, sent, field, sentence):
    answer = client.post(f"{covering}/steps", data={"words": "kept as typed", **sent})
    assert answer.status_code == 422
    assert "kept as typed" in answer.text
    assert sentence in (field_errors(answer).get(field) or words(answer))


def test_it_stays_red_until_a_result_that_names_s_is_recorded(client, database, ground, covering):
    passed(client, database, ground, "IREL", place="N")
    assert "Covered by mistake: the lower half" in owed(client, "S"), "a pass of the north wall says nothing of S"
    passed(client, database, ground, "IREL")
    left = owed(client, "S")
    assert "Covered by mistake: the lower half" not in left and "Rough electrical, S" not in left
    assert answer_of(client, "S") == "Covered, not cleared", "framing, insulation and a picture are still owed"


def settle_all(client, database, ground) -> None:
    for code in ("IREL", "IFRM", "IINS"):
        passed(client, database, ground, code)
    with database.writing() as session:
        slot = next(one for one in session.exec(select(PictureSlot)) if one.number == 2).row_id
    skip = {"by": "me", "what": f"slot:{slot}", "why": "It is behind the board now", "on": "today"}
    saved(client.post(f"{S}/let-go", data=skip))
    saved(client.post(f"{BASE}/tasks/{ground.tasks['Batts, S']}/finish", data={"on": "2026-05-16"}))


def test_once_all_is_settled_it_is_closed_after_all_and_all_of_it_stays_readable(client, database, ground, covering):
    settle_all(client, database, ground)
    page = client.get(f"{S}/before-cover")
    assert headings(page)[0] == "Settled by now"
    saved(client.post(links(page)["Closed after all"], data={"on": "2026-05-16"}))
    assert answer_of(client, "S") == "Closed"
    told = words(client.get(S))
    assert "Covered by mistake Sun 10 May: the lower half" in told and "Closed after all Sat 16 May" in told
    assert "Rough electrical passed" in words(client.get(f"{S}/before-cover"))
    assert "Closed after all 16 May 2026" in words(client.get(covering))
    assert client.post(f"{covering}/steps", data={"kind": "asked", "who": "x", "on": "today"}).status_code == 422


def test_opened_up_again_it_is_simply_open_and_the_story_stays(client, ground, covering):
    opened = {"kind": "opened", "on": "2026-05-14", "words": "all the board came off", "whole": "1"}
    saved(client.post(f"{covering}/steps", data=opened))
    assert answer_of(client, "S") == "Do not cover"
    assert "Covered by mistake: the lower half" not in owed(client, "S")
    assert "Opened up Thu 14 May: all the board came off" in words(client.get(S))


def test_a_picture_taken_behind_the_board_does_not_show_what_was_open(client, ground, covering):
    taken = {
        "data": {"surface": "S"},
        "files": {"pictures": ("2.jpg", a_jpeg(taken="2026:05:12 18:00:00"), "image/jpeg")},
    }
    page = soup(client.get(f"{BASE}/pictures?surface=S"))
    slot = next(one["value"] for one in page.select("select[name=slot] option") if "left third" in one.get_text())
    taken["data"]["slot"] = slot
    saved(client.post(f"{BASE}/pictures", **taken))
    assert "Picture 2: left third" in owed(client, "S")
    assert "taken after the surface was closed" in words(client.get(S))
    saved(client.post(f"{covering}/steps", data={"kind": "opened", "on": "2026-05-11", "whole": "1"}))
    assert "Picture 2: left third" not in owed(client, "S"), "by then it was open again"


def test_all_of_it_is_covered_by_mistake_only_once_and_a_closed_or_free_wall_never(client, ground):
    saved(client.post(f"{S}/covered-already", data=COVERED | {"extent": "all of it"}))
    again = client.post(f"{S}/covered-already", data=COVERED)
    assert again.status_code == 409 and "on record as covered on 10 May 2026" in words(again)
    assert "More of it is covered" not in words(client.get(f"{S}/before-cover"))


def test_a_form_that_says_too_little_comes_back_as_typed(client, ground):
    answer = client.post(f"{S}/covered-already", data=COVERED | {"how": "", "hours": "soon"})
    assert answer.status_code == 422
    assert set(field_errors(answer)) == {"how", "hours"}
    assert "me and a helper" in answer.text
    assert answer_of(client, "S") == "Do not cover"


def test_pressed_twice_it_is_on_record_once(client, ground):
    form = soup(client.get(f"{S}/covered-already")).select_one("#covered [name=sent_id]")["value"]
    first, second = (saved(client.post(f"{S}/covered-already", data=COVERED | {"sent_id": form})) for _ in range(2))
    assert first.headers["location"] == second.headers["location"]
    assert words(client.get(f"{S}/before-cover"), "main").count("The lower half, Sun 10 May") == 1


def test_a_stranger_learns_and_changes_nothing(stranger, covering):
    for path in (f"{S}/covered-already", f"{covering}/steps", f"{covering}/cost"):
        assert stranger.post(path, data=COVERED).status_code == 401
    assert stranger.get(covering).headers["location"].startswith("/sign-in")
