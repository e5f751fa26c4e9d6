"""Walking the invented build as a visitor does: every link from today, and every link of somebody without a sign-in."""

import re
from collections import deque
from collections.abc import Iterator
from datetime import timedelta
from html import unescape
from urllib.parse import urldefrag, urljoin

import httpx2
import pytest
from bs4 import BeautifulSoup
from fastapi.testclient import TestClient

from tests.conftest import OWN_PAGES
from tests.reading import words
from webapp.values.dates import show_date

INSIDE = ("/builds", "/watch")


LINK = re.compile(r'<a\b[^>]*?\bhref="([^"]*)"')
"""two thousand pages are read: a parser would take longer than the pages themselves"""


def places(answer: httpx2.Response, path: str) -> Iterator[str]:
    """Where the links of a page lead, without their fragments."""
    for href in LINK.findall(answer.text):
        yield urldefrag(urljoin(path, unescape(href))).url


def walk(client: TestClient, start: str, within: tuple[str, ...]) -> tuple[dict[str, int], dict[str, str]]:
    """Status of every page reached breadth first, and the page each was first seen on."""
    status: dict[str, int] = {}
    seen_on = {start: ""}
    todo = deque([start])
    while todo:
        path = todo.popleft()
        answer = client.get(path)
        status[path] = answer.status_code
        if answer.headers.get("content-type", "").startswith("text/html"):
            for place in places(answer, path):
                if place not in seen_on and place.startswith(within):
                    seen_on[place] = path
                    todo.append(place)
    return status, seen_on


@pytest.fixture(scope="module")
def walked(demo):
    return walk(demo.client, "/builds/bindery/today", INSIDE)


def test_every_page_that_can_be_reached_from_today_answers(walked):
    status, seen_on = walked
    broken = {path: (code, f"linked on {seen_on[path]}") for path, code in status.items() if code not in {200, 303}}
    assert broken == {}
    assert len(status) > 2000


def test_every_thing_on_record_has_a_page_that_is_linked(demo, walked):
    status, _ = walked
    record = demo.site.record
    base = "/builds/bindery"
    wanted = {f"{base}/tasks/{task.id}" for task in record.tasks}
    wanted |= {f"{base}/surfaces/{surface.code}" for surface in record.surfaces}
    wanted |= {f"{base}/questions/{question.id}" for question in record.questions if question.settled_on is None}
    wanted |= {f"{base}/permits/{permit.code}" for permit in record.permits}
    wanted |= {f"{base}/inspections/{inspection.code}" for inspection in record.inspections}
    wanted |= {f"{base}/visits/{visit.id}" for visit in record.visits}
    wanted |= {f"{base}/episodes/{number}" for number in range(1, 11)}
    assert wanted - set(status) == set()


@pytest.fixture(scope="module")
def public(demo):
    return walk(demo.stranger, "/watch", ("/",))


def test_without_a_sign_in_links_lead_to_public_pages_only(public):
    status, seen_on = public
    assert {path for path, code in status.items() if code >= 400} == set()
    assert {path for path in seen_on if not path.startswith(("/watch", "/sign-in"))} == set()
    assert {f"/watch/bindery/{number}" for number in range(1, 10)} <= set(status)
    assert "/watch/bindery/10" not in status


@pytest.mark.parametrize(
    "path", ["/", "/builds", "/builds/bindery/today", "/builds/bindery/spend", "/copies", "/settings"]
)
def test_without_a_sign_in_nothing_of_the_build_answers(demo, path):
    answer = demo.stranger.get(path)
    assert answer.status_code == 303
    assert answer.headers["location"].startswith("/sign-in")


def test_public_pages_show_nothing_that_was_marked_private(demo, public):
    status, _ = public
    pictures = [row for row in demo.content.pictures if row.private]
    private = {row.private for row in pictures} | {row.caption for row in pictures}
    private |= {row.note for row in demo.content.workdays if row.note} | {row.name for row in demo.content.suppliers}
    private |= {row.words for row in demo.content.corrections} | {row.my_note for row in demo.content.visits}
    assert len(private) > 150
    for path in [*status, "/watch/bindery/feed.xml"]:
        text = demo.stranger.get(path).text
        assert [words for words in private if words in text] == [], path


def test_the_corrected_episode_says_so_by_date_and_the_owed_correction_is_not_out(demo):
    corrected = words(demo.stranger.get("/watch/bindery/2"))
    assert "The description first said the pour came before the building visit." in corrected
    (day,) = (row.published_day for row in demo.content.episode_corrections if row.published_day)
    assert show_date(day) in corrected
    owed = next(row.words for row in demo.content.episode_corrections if row.state == "owed")
    eighth = demo.stranger.get("/watch/bindery/8")
    assert owed not in eighth.text
    assert "calling framing done on the west wall" in words(eighth)
    assert demo.stranger.get("/watch/bindery/10").status_code == 404


def test_published_pictures_are_there_for_everyone(demo):
    page = BeautifulSoup(demo.stranger.get("/watch/bindery/6").text, "html.parser")
    sources = {str(tag["src"]) for tag in page.select("main img[src]") if "/watch/pictures/" in str(tag["src"])}
    assert len(sources) == 2
    for source in sources:
        answer = demo.stranger.get(source)
        assert (answer.status_code, answer.headers["content-type"]) == (200, "image/webp")


def test_before_cover_of_east_names_the_four_stops_and_no_fifth(demo):
    answer = demo.client.get("/builds/bindery/surfaces/E/before-cover")
    page = words(answer)
    assert page.startswith("Do not cover East wall: 8 owed, 4 of them hard stops.")
    hard = page[page.index("Hard stops") : page.index("Wishes")]
    for stop in ("fire caulk, not foam", "Picture 6:", "Picture 7:", "Shot: east open, slow pan with tape"):
        assert stop in hard
    assert len(re.findall(r"Picture \d|Shot:|Correction,", hard)) == 4


def test_north_says_that_it_is_closed_and_that_a_danger_question_is_open(demo):
    assert "Cleat screws are 3 in" in words(demo.client.get("/builds/bindery/surfaces/N"))
    gate = words(demo.client.get("/builds/bindery/surfaces/N/before-cover"))
    assert "Closed, but not in order North wall, closed" in gate
    assert "One thing is open on it by now" in gate
    assert "Cleat screws are 3 in" in gate


def test_sheets_say_the_sums_and_days_of_the_record(demo):
    lapse = demo.saturday + timedelta(days=36)
    assert show_date(lapse) in words(demo.client.get("/builds/bindery/permits/BLD"))
    assert "15,243.51" in words(demo.client.get("/builds/bindery/spend"))


def test_whoever_enters_is_told_once_on_which_day_the_example_stands(demo):
    app = demo.stranger.app
    app.state.demo_token = "the-demo-token"
    visitor = TestClient(app, base_url="http://127.0.0.1", headers=OWN_PAGES, client=("127.0.0.1", 50000))
    first = words(visitor.get("/demo/the-demo-token"), "body")
    told = "This is an example, and all of it is invented. Its day is Saturday 16 May 2026."
    assert told in first
    assert told not in words(visitor.get("/builds/bindery/today"), "body")
    assert "16 May 2026" in first.replace(told, "")


def test_one_breach_of_the_order_is_kept_knowingly_and_one_office_has_a_closed_day_of_its_own(demo):
    kept = "Final building stands before final plumbing, which it needs"
    for page in ("today", "inspections", "what-stops"):
        told = words(demo.client.get(f"/builds/bindery/{page}"))
        assert told.count(kept) == 1 and "Plumbing comes on Wednesday and Friday only." in told, page
    electrical = words(demo.client.get("/builds/bindery/offices/2"), "#days")
    assert "Closed: the counter moves to another floor" in electrical
    assert "the counter moves" not in words(demo.client.get("/builds/bindery/offices/1"))
