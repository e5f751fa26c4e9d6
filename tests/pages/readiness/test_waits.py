"""What a task waits for besides tasks, and what stands before and after a visit, said through the pages."""

import pytest
from sqlmodel import select

from tests import builders
from tests.reading import field_errors, headings, links, soup, words
from webapp.plan.models import Need

BASE = "/builds/bindery"


@pytest.fixture
def west(database, build):
    """Ids on a west wall: a visit on W and N, boxes to nail up, batts to put in, and one of each other kind."""
    with database.writing() as s:
        wall = builders.a_surface(s, build, "W", "West wall", position=2, facing="W")
        north = builders.a_surface(s, build, "N", "North wall", position=3, facing="N")
        permit = builders.a_permit(s, build, "ELE", name="Electrical permit")
        visit = builders.an_inspection(s, permit, "Rough electrical", (wall, north), code="ROUGH")
        phase = builders.a_phase(s, build, "Insulation")
        boxes, batts, board = (
            builders.a_task(s, phase, title, at)
            for at, title in enumerate(("Nail up the boxes", "Batts, west", "Board, west"), 1)
        )
        builders.works_on(s, board, wall, closes=True)
        builders.a_slot(s, wall, 1, what="Plumbing")
        rows = {"wall": wall, "north": north, "visit": visit, "boxes": boxes, "batts": batts, "board": board}
        rows |= {"question": builders.a_question(s, build, wall, words="Which foam?"), "permit": permit}
        rows |= {"shot": builders.a_shot(s, build, what="The sleeve")}
        return {name: row.row_id for name, row in rows.items()}


def _typed(database) -> list[tuple[object, ...]]:
    with database.reading() as s:
        return [
            (n.what_kind, n.what_id, n.what_surface_id, n.needs_kind, n.needs_id, n.needs_surface_id, n.strength)
            for n in s.exec(select(Need)).all()
        ]


def _offered(page) -> dict[str, list[str]]:
    return {
        str(group["label"]): [tag.get_text() for tag in group.select("option")]
        for group in soup(page).select("#f-needs optgroup, #f-task optgroup")
    }


def test_a_task_may_wait_for_a_visit_a_permit_a_question_a_shot_or_pictures(client, west):
    page = client.get(f"{BASE}/tasks/{west['batts']}/waits")
    assert headings(page)[0] == "What else does it wait for?"
    assert _offered(page) == {
        "Visits": ["Rough electrical, every surface", "Rough electrical, W", "Rough electrical, N"],
        "Permits": ["Electrical permit issued (settled)"],
        "Questions open": ["Which foam?"],
        "Shots owed": ["Shot: the sleeve"],
        "Pictures of a surface": ["Pictures of the west wall"],
    }


def test_batts_wait_for_rough_electrical_on_their_own_wall_only(client, database, west):
    href = f"{BASE}/tasks/{west['batts']}"
    chosen = f"inspection:{west['visit']}@{west['wall']}"
    said = client.post(f"{href}/waits", data={"needs": chosen, "strength": "hard", "reason": "hides the cables"})
    assert (said.status_code, said.headers["location"]) == (303, f"{href}/waits")
    assert _typed(database) == [("task", west["batts"], 0, "inspection", west["visit"], west["wall"], "hard")]
    assert "Rough electrical, W hides the cables" in words(client.get(f"{href}/waits"))
    stops = words(client.get(f"{href}/stops"), "body")
    assert "Rough electrical, W" in stops
    assert "Rough electrical, N" not in stops


@pytest.mark.parametrize("kind", ["permit", "question", "shot", "pictures"])
def test_every_other_kind_is_kept_named_and_taken_out(client, database, west, kind):
    href = f"{BASE}/tasks/{west['batts']}"
    number = west["wall" if kind == "pictures" else kind]
    assert client.post(f"{href}/waits", data={"needs": f"{kind}:{number}", "strength": "wish"}).status_code == 303
    assert _typed(database) == [("task", west["batts"], 0, kind, number, 0, "wish")]
    page = client.get(f"{href}/waits")
    assert "a wish" in words(page)
    form = soup(page).select_one("form[action$=drop]")
    assert client.post(str(form["action"])).status_code == 303
    assert _typed(database) == []


def test_a_wait_for_nothing_or_for_another_builds_visit_is_not_taken(client, database, west):
    with database.writing() as s:
        other = builders.a_build(s, "Shed")
        foreign = builders.an_inspection(s, builders.a_permit(s, other, "SHD"), "Footing").row_id
        phase = builders.a_phase(s, other)
        strange = builders.a_task(s, phase, "Dig").row_id
    href = f"{BASE}/tasks/{west['batts']}/waits"
    for needs in ("", f"inspection:{foreign}", "nonsense", f"task:{west['boxes']}"):
        page = client.post(href, data={"needs": needs, "reason": "kept words"})
        assert page.status_code == 422
        assert "Choose what comes first" in field_errors(page)["needs"]
        assert "kept words" in page.text
    assert client.post(f"{BASE}/tasks/{strange}/waits", data={"needs": f"permit:{west['permit']}"}).status_code == 404
    assert client.get(f"{BASE}/inspections/FOOTING/waits").status_code == 404
    page = client.post(f"{BASE}/inspections/ROUGH/waits", data={"task": str(strange), "side": "before"})
    assert "only open tasks of this build" in field_errors(page)["task"]
    assert _typed(database) == []


def test_the_same_wait_is_not_written_down_twice(client, database, west):
    href = f"{BASE}/tasks/{west['batts']}/waits"
    client.post(href, data={"needs": f"permit:{west['permit']}"})
    page = client.post(href, data={"needs": f"permit:{west['permit']}"})
    assert page.status_code == 422
    assert "written down already" in field_errors(page)["needs"]
    assert len(_typed(database)) == 1


@pytest.mark.parametrize("surface", ["", "wall"])
def test_boxes_are_nailed_up_before_the_visit_of_one_wall_or_of_all(client, database, west, surface):
    href = f"{BASE}/inspections/ROUGH"
    place = west[surface] if surface else 0
    sent = {"task": str(west["boxes"]), "side": "before", "surface": str(place or ""), "strength": "hard"}
    assert client.post(f"{href}/waits", data=sent).status_code == 303
    assert _typed(database) == [("inspection", west["visit"], place, "task", west["boxes"], 0, "hard")]
    page = client.get(f"{href}/waits")
    assert "Done before the visit 1" in headings(page)
    assert "Waits for it 0" in headings(page)
    assert client.post(str(soup(page).select_one("form[action$=drop]")["action"])).status_code == 303
    assert _typed(database) == []


def test_what_is_typed_stands_surface_by_surface_with_what_is_open_first(client, database, build, west):
    with database.writing() as s:
        done = builders.a_task(s, builders.a_phase(s, build, "Shell"), "Set the window", state="done")
        for task, place in ((done.row_id, "wall"), (west["boxes"], "north"), (west["boxes"], "wall")):
            s.add(
                Need(
                    build_id=build.row_id,
                    what_kind="inspection",
                    what_id=west["visit"],
                    what_surface_id=west[place],
                    needs_kind="task",
                    needs_id=task,
                )
            )
    page = client.get(f"{BASE}/inspections/ROUGH/waits")
    assert [tag.get_text() for tag in soup(page).select("main h3")] == ["West wall", "North wall"]
    first = soup(page).select_one("main .rows")
    assert [tag.get_text() for tag in first.select("b")] == ["Nail up the boxes", "Set the window"]
    assert first.select_one(".s").get_text() == "settled"
    assert first.button["aria-label"] == "Take out: Nail up the boxes, West wall"


def test_a_task_that_waits_for_the_visit_is_said_on_the_visits_sheet_too(client, database, west):
    sent = {"task": str(west["batts"]), "side": "after", "surface": str(west["wall"])}
    assert client.post(f"{BASE}/inspections/ROUGH/waits", data=sent).status_code == 303
    assert _typed(database) == [("task", west["batts"], 0, "inspection", west["visit"], west["wall"], "hard")]
    assert "Rough electrical, W" in words(client.get(f"{BASE}/tasks/{west['batts']}/waits"), ".rows")


def test_a_circle_through_what_nobody_typed_is_refused_with_the_names_in_order(client, database, west):
    """The board closes the wall that the visit holds, so the visit cannot wait for the board."""
    sent = {"task": str(west["board"]), "side": "before", "surface": str(west["wall"])}
    page = client.post(f"{BASE}/inspections/ROUGH/waits", data=sent)
    assert page.status_code == 409
    assert headings(page)[0] == "Not saved: these would wait for each other"
    assert "“Rough electrical, W” needs “Board, west” needs “Rough electrical, W”." in words(page)
    assert f"{BASE}/inspections/ROUGH/waits" in links(page).values()
    assert _typed(database) == []


def test_a_circle_through_a_typed_task_need_is_refused(client, database, west):
    client.post(f"{BASE}/tasks/{west['boxes']}/needs", data={"needs_id": str(west["batts"])})
    client.post(f"{BASE}/inspections/ROUGH/waits", data={"task": str(west["boxes"]), "side": "before"})
    page = client.post(f"{BASE}/tasks/{west['batts']}/waits", data={"needs": f"inspection:{west['visit']}"})
    assert page.status_code == 409
    assert "“Batts, west” needs “Rough electrical, W” needs “Nail up the boxes” needs “Batts, west”." in words(page)
    assert len(_typed(database)) == 2


def test_the_pages_are_linked_from_where_one_would_look(client, west):
    task, visit = f"{BASE}/tasks/{west['batts']}", f"{BASE}/inspections/ROUGH"
    assert f"{task}/waits" in links(client.get(task)).values()
    assert f"{task}/waits" in links(client.get(f"{task}/needs")).values()
    assert f"{visit}/waits" in links(client.get(visit)).values()


def test_a_stranger_neither_sees_nor_writes_waits(stranger, database, west):
    for href in (f"{BASE}/tasks/{west['batts']}/waits", f"{BASE}/inspections/ROUGH/waits"):
        assert stranger.get(href, follow_redirects=False).status_code in {303, 401, 403, 404}
        sent = {"needs": f"permit:{west['permit']}", "task": str(west["boxes"]), "side": "before"}
        assert stranger.post(href, data=sent, follow_redirects=False).status_code in {303, 401, 403, 404}
    stranger.post(f"{BASE}/inspections/ROUGH/waits/1/drop")
    assert _typed(database) == []
