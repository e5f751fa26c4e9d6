"""Scenario "Moved sink": rough plumbing passed on W with pictures and offsets; then the sink goes to N."""

from datetime import date

import pytest
from sqlmodel import select

from tests import builders
from tests.pictures import a_jpeg
from tests.reading import field_errors, headings, links, soup, words
from tests.story.bindery import BASE, answer_of, lay_out, owed, roots, said, saved
from webapp.inspections.models import Inspection
from webapp.surfaces.models import Item, PicturePlace, PictureSlot, ShotSurface, Surface

PLACE = {"to": "N", "x": "60", "y": "20"}


@pytest.fixture
def ground(client, database, build):
    """W has the sink with a picture of it, another of the whole wall, a filmed shot and the plumbing done."""
    with database.writing() as session:
        made = lay_out(session, build, "IRPL")
        west = session.get_one(Surface, made.walls["W"])
        more = {"kind": "fixture", "service": "drain", "x_nm": 30 * builders.INCH, "y_nm": 20 * builders.INCH}
        sink = builders.an_item(session, west, "Sink drain", **more).row_id
        for number, (what, item) in enumerate((("sink, drain and supply", sink), ("whole wall", None)), 1):
            photo = builders.a_photo(session, taken_at="2026-05-14T17:00:00").row_id
            builders.a_slot(session, west, number, what=what, photo_id=photo, item_id=item)
            place = {"surface_id": west.row_id, "item_id": item, "placed_at": builders.AT}
            session.add(PicturePlace(build_id=build.row_id, photo_id=photo, **place))
        phase = builders.a_phase(session, build, "Plumbing", 3)
        work = builders.a_task(
            session, phase, "Rough in the sink", kind="plumbing", state="done", done_on=date(2026, 5, 10)
        )
        builders.works_on(session, work, west)
        shot = builders.a_shot(session, build, work, what="Drain glued", state="filmed", filmed_on=date(2026, 5, 10))
        session.add(ShotSurface(shot_id=shot.row_id, surface_id=west.row_id))
    sent = {"day": "2026-05-15", **said(made, W="passed")}
    saved(client.post(f"{BASE}/visits/{made.asked['IRPL']}/result", data=sent))
    assert "Rough plumbing, W" not in owed(client, "W")
    return made


def form_of(client, path: str) -> dict[str, list[str]]:
    """What the form on a page would send as it stands."""
    found: dict[str, list[str]] = {}
    for tag in soup(client.get(path)).select("#change [name]"):
        ticked = tag.get("type") not in {"checkbox", "radio"} or tag.has_attr("checked")
        if ticked and tag.name == "input":
            found.setdefault(tag["name"], []).append(tag.get("value", ""))
        elif tag.name == "textarea":
            found.setdefault(tag["name"], []).append(tag.get_text())
    return found


def new_path(item: int = 1, **place: str) -> str:
    return f"{BASE}/changes/new?item={item}&" + "&".join(f"{name}={value}" for name, value in (PLACE | place).items())


@pytest.fixture
def change(client, ground) -> str:
    """The sink is moved as proposed; the address of the change."""
    data = form_of(client, new_path()) | {"why": "the window over it is the better light"}
    return saved(client.post(f"{BASE}/changes", data=data)).headers["location"]


def answered(client, change: str, answer: str, **more: str) -> None:
    sent = {"answer": answer, "who": "the inspector", "on": "2026-05-16", **more}
    saved(client.post(f"{change}/answer", data=sent))


def test_from_the_thing_it_leads_to_what_a_move_touches(client, ground):
    way = links(client.get(f"{BASE}/surfaces/W/items/1"))["It was moved: another place or surface"]
    first = client.get(way)
    assert headings(first)[0] == "Move “Sink drain”"
    page = client.get(new_path())
    assert headings(page)[0] == "“Sink drain” from West wall to North wall"
    chosen = form_of(client, new_path())
    irpl, walls = ground.inspections["IRPL"], ground.walls
    assert chosen["reopen"] == [f"{irpl}@{walls['W']}", f"{irpl}@{walls['N']}"]
    told = words(page)
    assert "Rough plumbing, W Passed 15 May 2026." in told
    assert "Rough plumbing, N It does not look at this surface yet; from now on it does." in told
    assert "Rough in the sink Done 10 May 2026." in told and "Drain glued Filmed 10 May 2026." in told


@pytest.mark.parametrize("code", ["W", "N"])
def test_the_plumbing_of_both_is_open_again_and_the_change_stops_both(client, change, code):
    stops = owed(client, code)
    assert f"Rough plumbing, {code}" in stops
    assert "Change: sink drain moved from West wall to North wall" in stops
    assert answer_of(client, code) == "Do not cover"


def test_what_stops_the_board_says_it_and_other_walls_are_left_alone(client, ground, change):
    told = roots(client, f"phase={ground.phases['Board']}")
    assert "Ask about the change: Sink drain moved from West wall to North wall" in told
    assert not [title for title in owed(client, "E") if "Change" in title or "plumbing" in title]


def test_old_pictures_say_before_the_move_wherever_they_are_shown(client, change):
    past = "before the move of 16 May 2026"
    assert words(client.get(f"{BASE}/surfaces/W"), "#pictures").count(past) == 1, "the whole wall shows more than it"
    assert past in words(client.get(f"{BASE}/surfaces/W/items/1"))
    assert f"It shows the state {past}." in words(client.get(f"{BASE}/pictures/1"))
    assert past not in words(client.get(f"{BASE}/pictures/2"))


def test_the_thing_is_at_its_new_place_and_its_old_one_leads_there(client, change):
    old = client.get(f"{BASE}/surfaces/W/items/1")
    assert "Moved or replaced on 16 May 2026." in words(old)
    new = links(old)["Now: Sink drain, North wall"]
    assert links(client.get(new))["Before: Sink drain, West wall"].endswith("/surfaces/W/items/1")
    assert "Moved or replaced Sat 16 May" in words(client.get(f"{BASE}/surfaces/W"), "#hidden")


def test_the_film_list_and_the_work_of_the_step_come_back_and_the_old_ones_stay(client, ground, change):
    footage = words(client.get(f"{BASE}/footage"))
    assert "Again: Drain glued" in footage and "Sun 10 May" in footage
    told = roots(client, "surface=N")
    assert "Again: Rough in the sink" in told, "the visits owed anew wait for the work"
    again = links(client.get(f"{BASE}/phases/3"))
    assert any(label.startswith("Rough in the sink") for label in again)


def test_the_earlier_pass_is_readable_as_history(client, ground, change):
    page = client.get(f"{BASE}/inspections/IRPL")
    assert "Owed anew: passed 15 May 2026, before a change" in words(page)
    result = client.get(f"{BASE}/results/1")
    assert headings(result)[0] == "West wall: passed"
    assert "before a change from what was approved, so it counts no more there" in words(result)
    assert "Rough plumbing, W Passed 15 May 2026, before the change." in words(client.get(change))
    assert "Rough plumbing, passed" in words(client.get(f"{BASE}/permits")), "it moved the permit's clock then"


def test_the_picture_of_the_thing_is_owed_no_more_and_that_of_the_wall_is_still_good(client, database, change):
    with database.reading() as session:
        slots = session.exec(select(PictureSlot)).all()
        assert [(one.number, one.ended_on) for one in slots] == [(1, date(2026, 5, 16)), (2, None), (1, None)]
        assert [one.label for one in session.exec(select(Item)).all()] == ["Sink drain", "Sink drain"]


def test_agreed_to_it_stops_no_more_but_the_plumbing_is_still_to_be_seen(client, database, ground, change):
    answered(client, change, "agreed", words="fine, same vent")
    for code in "WN":
        assert not [title for title in owed(client, code) if title.startswith("Change")]
        assert f"Rough plumbing, {code}" in owed(client, code)
    assert "Agreed Sat 16 May, my note." in words(client.get(change))
    with database.writing() as session:
        inspection = session.get_one(Inspection, ground.inspections["IRPL"])
        visit = builders.a_visit(session, inspection, date(2026, 5, 16), outcome="asked").row_id
    sent = {"day": "2026-05-16", **said(ground, W="passed", N="passed")}
    saved(client.post(f"{BASE}/visits/{visit}/result", data=sent))
    assert not [title for code in "WN" for title in owed(client, code) if "plumbing" in title]


def test_refused_it_goes_on_stopping_until_it_is_moved_back(client, change):
    answered(client, change, "refused", words="no drain on that wall")
    page = client.get(change)
    assert headings(page)[0] == "Sink drain moved from West wall to North wall"
    assert [title for title in owed(client, "N") if title.startswith("Change")]
    back = links(page)["Move it back"]
    assert headings(client.get(back))[0] == "“Sink drain” from North wall to West wall"
    saved(client.post(f"{BASE}/changes", data=form_of(client, back)))
    for code in "WN":
        assert not [title for title in owed(client, code) if title.startswith("Change")]
    told = words(client.get(change))
    assert "Moved on since." in told and "Refused Sat 16 May" in told, "what was said stays"


def test_moved_on_instead_of_back_it_is_asked_about_again(client, ground, change):
    new = soup(client.get(f"{BASE}/surfaces/N")).select_one("#hidden tbody a")["href"].rpartition("/")[2]
    path = f"{BASE}/changes/new?item={new}&to=E&x=60&y=20"
    assert "this was changed before" in words(client.get(path))
    saved(client.post(f"{BASE}/changes", data=form_of(client, path)))
    assert "Change: sink drain moved from North wall to East wall" in owed(client, "E")
    assert "Change: sink drain moved from North wall to East wall" in owed(client, "N")


def test_back_at_its_first_place_nobody_has_to_agree(client, database, ground, change):
    with database.writing() as session:
        inspection = session.get_one(Inspection, ground.inspections["IFRM"])
        visit = builders.a_visit(session, inspection, date(2026, 5, 16), outcome="asked").row_id
    saved(client.post(f"{BASE}/visits/{visit}/result", data={"day": "2026-05-16", **said(ground, W="passed")}))
    back = links(client.get(change))["Move it back"]
    made = saved(client.post(f"{BASE}/changes", data=form_of(client, back))).headers["location"]
    assert "It is back where it was approved." in words(client.get(made))
    assert not [title for title in owed(client, "W") if title.startswith("Change")]


def test_the_answer_needs_who_and_keeps_what_was_said_before(client, change):
    bad = client.post(f"{change}/answer", data={"answer": "agreed", "on": "today", "words": "kept as typed"})
    assert bad.status_code == 422 and set(field_errors(bad)) == {"who"} and "kept as typed" in bad.text
    bare = client.post(f"{change}/answer", data={"answer": "agreed with conditions", "who": "x", "on": "today"})
    assert "Write the conditions." in field_errors(bare)["words"]
    answered(client, change, "refused")
    paper = {"paper": ("letter.jpg", a_jpeg(), "image/jpeg")}
    sent = {"answer": "agreed with conditions", "who": "the office", "on": "today", "words": "with a cleanout"}
    saved(client.post(f"{change}/answer", data=sent, files=paper))
    told = words(client.get(change))
    assert "Answer: refused, now agreed with conditions" in told and "Who agrees: the inspector, now the office" in told
    assert "picture of the paper" in told


def test_nobody_skips_a_change_by_his_own_word(client, ground, change):
    for by in ("me", "authority"):
        sent = {"by": by, "what": "change:1", "why": "it is fine", "who": "me", "on": "today"}
        assert client.post(f"{BASE}/surfaces/N/let-go", data=sent).status_code == 422
    assert [title for title in owed(client, "N") if title.startswith("Change")]


def test_a_pass_of_the_day_of_the_change_counts_only_if_it_was_written_down_after_it(client, ground, change):
    assert "Rough plumbing, W" in owed(client, "W")
    right = {"what": "Sink moved", "who": "the office", "on": "2026-05-14", "because": "it was Thursday"}
    saved(client.post(f"{change}/words", data=right))
    assert "Rough plumbing, W" not in owed(client, "W"), "the visit of the 15th saw the new state"
    assert "On day: 16 May 2026, now 14 May 2026" in words(client.get(change))


def test_where_nothing_was_approved_it_is_only_moved(client, database, ground):
    path = new_path().replace("to=N", "to=E")
    with database.writing() as session:
        east = session.get_one(Surface, ground.walls["E"])
        lamp = builders.an_item(session, east, "Lamp box", x_nm=builders.INCH * 20, is_box=True).row_id
    path = f"{BASE}/changes/new?item={lamp}&to=C&x=40&y=40"
    page = client.get(path)
    assert "simply moved" in words(page)
    answer = saved(client.post(f"{BASE}/changes", data=form_of(client, path)))
    assert answer.headers["location"].endswith("/surfaces/C#hidden")
    assert client.get(f"{BASE}/changes/1").status_code == 404
    approved = client.get(f"{BASE}/changes/new?item={lamp + 1}&to=S&x=40&y=40&approved=1")
    assert "Something that was approved is touched" in words(approved)


@pytest.mark.parametrize(
    ("place", "field", "sentence"),
    [
        ({"x": "900"}, "x", "lies outside"),
        ({"to": "Q"}, "to", "Choose the surface"),
        ({"to": "W", "x": "30", "y": "20"}, "x", "where it is now"),
    ],
)
def test_a_place_that_cannot_be_is_said_at_the_field(client, ground, place, field, sentence):
    answer = client.get(new_path(**place))
    assert answer.status_code == 422
    assert sentence in field_errors(answer)[field]


def test_a_change_that_moves_nothing_is_written_down_with_its_surfaces(client, ground):
    form = {"what": "A smaller window", "why": "in stock", "on": "today", "surfaces": ["E", "S"]}
    made = saved(client.post(f"{BASE}/changes", data=form)).headers["location"]
    assert "Change: a smaller window" in owed(client, "E") and "Change: a smaller window" in owed(client, "S")
    assert "A smaller window" in words(client.get(f"{BASE}/changes"))
    answered(client, made, "no approval needed")
    assert "Change: a smaller window" not in owed(client, "E")
    bad = client.post(f"{BASE}/changes", data={"what": "Another", "on": "today"})
    assert "Choose at least one surface" in words(bad) and 'value="Another"' in bad.text


def test_a_stranger_learns_and_changes_nothing(stranger, change):
    for path in (f"{BASE}/changes", f"{change}/answer", f"{change}/words"):
        assert stranger.post(path, data={"what": "x"}).status_code == 401
    for path in (f"{BASE}/changes", f"{BASE}/changes/new", change):
        assert stranger.get(path).headers["location"].startswith("/sign-in")
