"""Every page of the invented build, and of an empty one, before axe-core: WCAG 2.0 to 2.2 A and AA, and best practice.

axe judges what a machine can judge; https://www.w3.org/TR/WCAG22/ is what its tags stand for. The same visit looks for
sideways scroll (1.4.10 Reflow, at 320), for small targets, and for whatever the browser itself complains of.
"""

import re
import shutil
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from html import unescape
from importlib.resources import files
from pathlib import Path
from urllib.parse import parse_qs, urldefrag, urljoin, urlsplit

import pytest
from fastapi import FastAPI
from fastapi.openapi.utils import get_openapi
from fastapi.testclient import TestClient
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import DESK, served, watched
from tests.conftest import OWN_PAGES
from webapp.accounts.actions import begin_sign_in, ensure_demo_owner, offer_set_up
from webapp.accounts.guard import COOKIE
from webapp.core import clock
from webapp.core.database import Database
from webapp.core.rendering import LOOK_COOKIE
from webapp.core.settings import Settings
from webapp.demo import actions
from webapp.main import create_app

BASE = "/builds/bindery"
ASKED = ("N/behind?x=54&y=84", "C/behind?x=20&y=150", "E/behind?x=long&y=9")
BEHIND = tuple(f"{BASE}/surfaces/{asked}" for asked in ASKED)
"""what is behind a spot: an answer, one that holds nothing, one that was mistyped"""
LOW = {"viewport": {"width": 390, "height": 410}, "is_mobile": True, "has_touch": True}
"""In a low window the bottom bar does not stick. Where it does, axe reports what lies under it at rest as too small a
target; that nothing with the focus stays there is shown in test_keyboard."""
LINK = re.compile(r'<a\b[^>]*?\bhref="([^"]*)"')
BUILD = "/builds/{build}"
NO_PAGES = (
    "/photos/",
    "/watch/pictures/",
    "/watch/{slug}/feed.xml",
    "/copies/",
    "/builds/{build}/papers/{code}/file",
    "/builds/{build}/said/{note_id}/sound",
    "/builds/{build}/visits/{visit_id}/packet/pdf",
    "/calendar/",
    "/sw.js",
    "/share",
    "/log-the-day",
    "/before-cover",
    f"{BUILD}/kept",
    f"{BUILD}/calendar.ics",
    "/demo/",
    "/set-up/",
    "/sign-in",
)
"""files, and doors that are looked at signed out"""
MORE = (
    "/builds/bindery/surfaces/E/before-cover",
    "/builds/bindery/pictures/many?surface=N&came=114.115",
    "/builds/bindery/visits/15/packet/print",
    "/builds/bindery/surfaces/N/before-cover",
    "/builds/bindery/surfaces/TR",
    "/builds/bindery/surfaces/TR/ties/new",
    "/builds/bindery/surfaces/TR/ties/1",
    "/builds/bindery/surfaces?order=1",
    "/builds/bindery/surfaces/N",
    "/builds/bindery/surfaces/E/cover",
    "/builds/bindery/surfaces/S/covered-already",
    "/builds/bindery/surfaces/S/before-cover",
    "/builds/bindery/changes/new",
    "/builds/bindery/changes/new?item=1&to=N&x=60&y=18",
    "/builds/bindery/surfaces/N/open-again",
    "/builds/bindery/episodes/10",
    "/builds/bindery/episodes/10/as-viewers",
    "/builds/bindery/episodes/10/texts",
    "/builds/bindery/workdays/1/saved",
    "/builds/bindery/tasks/1/stops",
    "/builds/bindery/tasks/1/day",
    "/builds/bindery/tasks/999999",
    "/builds/bindery/what-stops?surface=E",
)
"""further states of the same sheets: open and closed, in the making, refused (409) and not found (404)"""
MORE += BEHIND
EMPTY = ("today", "phases", "surfaces", "what-stops", "before-cover", "pictures", "permits", "inspections", "spend")
EMPTY += ("footage", "episodes", "workdays", "workdays/log", "surfaces/new", "footage/new", "inspections/new", "behind")
PUBLIC = ("/watch", "/watch/bindery", "/watch/bindery/2", "/watch/bindery/6", "/sign-in", "/watch/nothing", "/not-kept")
IN_EACH_LOOK = (
    "/today",
    "/permits/BLD",
    "/offices/1",
    "/surfaces/E/before-cover",
    "/surfaces/E",
    "/what-stops",
    "/workdays/log",
    "/episodes/10",
)
COVERED = {"extent": "the lower half", "on": "today", "how": "the board lay there", "hours": "2"}
MORE_TIME = {"why": "The window came late", "fee": "75"}
CHANGED = {"what": "A smaller window", "surfaces": "E", "on": "today"}
"""what the invented build has none of: a covering by mistake, a change from what was approved, more time asked for"""
WRONG = (
    (f"{BASE}/workdays/log", {"own": "55", "other_day": "31 May 2031", "hired": "400", "spend1_total": "much"}),
    (f"{BASE}/alone", {"whom": "", "back_by": "late"}),
    (f"{BASE}/phases", {}),
    (f"{BASE}/phases/1/tasks", {"low": "9", "likely": "2", "high": "soon"}),
    (f"{BASE}/surfaces", {"length": "long"}),
    (f"{BASE}/papers", {"day": "2031-01-01"}),
    (f"{BASE}/hired", {"licence_seen_on": "2031-01-01"}),
    (f"{BASE}/tests", {"day": "2031-01-01", "start_time": "26:00"}),
    (f"{BASE}/spend", {"total": "much", "day": "some day"}),
    (f"{BASE}/permits", {"issued_on": "some day", "idle_count": "many", "fixed_count": "0"}),
    (f"{BASE}/permits/BLD/extensions", {"asked_on": "some day", "fee": "1.234"}),
    (f"{BASE}/extensions/1/answer", {"answered_on": "some day"}),
    (f"{BASE}/offices", {"notice_days": "-1", "ask_by": "noon", "calendar": "XX"}),
    (f"{BASE}/offices/1/closed", {"day": "2026-05-20", "until_day": "2026-05-10"}),
    (f"{BASE}/inspections", {}),
    (f"{BASE}/inspections/start", {"take_final": "yes"}),
    (f"{BASE}/booked", {"day": "some day", "cancel_by": "seven"}),
    (f"{BASE}/visits/19/move", {"day": "31 May 2031", "window": "12:00 to 09:00"}),
    (f"{BASE}/inspections/IREL/points?use=self-check", {}),
    (f"{BASE}/footage", {}),
    (f"{BASE}/questions", {}),
    (f"{BASE}/surfaces/S/covered-already", {"on": "2031-01-01"}),
    (f"{BASE}/changes", {"on": "some day"}),
    (f"{BASE}/changes/1/answer", {"answer": "agreed with conditions"}),
    (f"{BASE}/pictures", {}),
    (f"{BASE}/pictures", {"on_to": "many"}),
    (f"{BASE}/pictures/set", {"do": "shift"}),
    (f"{BASE}/said", {"about": "surface/E"}),
    (f"{BASE}/visits/1/result", {"day": "2031-01-01", "words_1": "", "place_1": "by the door", "fee": "much"}),
    (f"{BASE}/advice", {"day": "some day"}),
    (f"{BASE}/corrections/1/place", {"x": "far", "y": ""}),
    (f"{BASE}/corrections/1/clear", {"on": "2020-01-01"}),
    (f"{BASE}/results/1/paper", {}),
    (f"{BASE}/surfaces/E/let-go", {"by": "authority"}),
    (f"{BASE}/tasks/1/edit", {}),
    (f"{BASE}/episodes/10", {"from_day": "some day"}),
    (f"{BASE}/episodes/10/publish", {"from_day": "2026-05-17", "text": ""}),
    ("/builds", {}),
)
"""forms as nobody can mean them, each with fields that are wrong"""
AXE = (files("axe_playwright_python") / "axe.min.js").read_text(encoding="utf-8")
RUN = """async (contrast) => {
  const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22a", "wcag22aa", "best-practice"];
  const found = await axe.run(document, {
    runOnly: tags, resultTypes: ["violations"], rules: { "color-contrast": { enabled: contrast } },
  });
  return found.violations.flatMap((one) => one.nodes.map((node) => `${one.id}: ${node.html.slice(0, 160)}`));
}"""
SEND = """([path, fields]) => {
  const form = document.createElement("form");
  Object.assign(form, { method: "post", action: path });
  for (const [name, value] of Object.entries(fields)) {
    form.append(Object.assign(document.createElement("input"), { name, value }));
  }
  document.body.append(form);
  form.submit();
}"""
SIDEWAYS = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
SMALL = """() => [...document.querySelectorAll(
    "button, .btn, .go, .pick label, .strip a, .tb nav a, summary, select, textarea, input:not([type=hidden])")]
  .filter((one) => !one.closest(".vh, [hidden], .pick label input") && one.getClientRects().length)
  .filter((one) => !(one.matches("input") && one.closest("label")))
  .map((one) => [one, one.getBoundingClientRect()])
  .filter(([one, box]) => box.width > 1 && (box.width < 43.9 || box.height < 43.9))
  .map(([one, box]) => `${one.outerHTML.slice(0, 120)} is ${Math.round(box.width)} x ${Math.round(box.height)}`)"""


@dataclass(frozen=True)
class Opened:
    """The invented build, answering at an address."""

    app: FastAPI
    address: str
    token: str
    pages: tuple[str, ...]


def shapes(app: FastAPI) -> dict[str, re.Pattern[str]]:
    """Every address that is read, as the program itself describes it, and a pattern for its paths."""
    paths = get_openapi(title="all", version="1", routes=app.routes)["paths"]
    kinds = [path for path, methods in paths.items() if "get" in methods]
    kinds.sort(key=lambda path: (path.count("{"), path))
    return {path: re.compile("[^/]+".join(map(re.escape, re.split(r"\{[^}]+\}", path)))) for path in kinds}


def kind_of(place: str, known: dict[str, re.Pattern[str]]) -> tuple[str, str]:
    """Which sheet an address is: its shape, what is asked of it, and which form of it is opened."""
    parts = urlsplit(place)
    shape = next((path for path, pattern in known.items() if pattern.fullmatch(parts.path)), "")
    asked = parse_qs(parts.query)
    return shape, ",".join([*sorted(asked.keys() - {"freed", "before", "turn"}), *asked.get("do", [])])


def one_of_each(client: TestClient, app: FastAPI) -> tuple[str, ...]:
    """The first page of each kind that links lead to from Today, breadth first."""
    known, todo, found = shapes(app), deque([f"{BASE}/today"]), {}
    while todo:
        place = todo.popleft()
        kind = kind_of(place, known)
        if kind in found or not kind[0] or kind[0].startswith(NO_PAGES):
            continue
        answer = client.get(place)
        found[kind] = place
        todo += [urldefrag(urljoin(place, unescape(href))).url for href in LINK.findall(answer.text)]
    return tuple(found.values())


def not_looked_at(places: tuple[str, ...], app: FastAPI) -> set[str]:
    known = shapes(app)
    seen = {kind_of(place, known)[0] for place in (*places, *PUBLIC)}
    return {path for path in known if not path.startswith(NO_PAGES)} - seen - {"/", "/builds/{build}"}


@pytest.fixture(scope="module")
def opened(loaded: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Opened]:
    folder = tmp_path_factory.mktemp("axe") / "data"
    shutil.copytree(loaded, folder)
    settings = Settings(data=folder, demo=True)
    database = Database(settings.database)
    held = actions.held_day(database)
    with database.writing() as session:
        token = begin_sign_in(session, ensure_demo_owner(session), "test")
    app = create_app(settings, database)
    app.dependency_overrides[clock.today] = lambda: held
    client = TestClient(app, base_url="http://127.0.0.1", headers=OWN_PAGES, cookies={COOKIE: token})
    shed = {"name": "Shed", "what": "A shed", "length_unit": "in", "currency": "USD"}
    assert client.post("/builds", data=shed).url.path == "/builds/shed/phases"
    covering = client.post(f"{BASE}/surfaces/S/covered-already", data=COVERED).url.path
    change = client.post(f"{BASE}/changes", data=CHANGED).url.path
    more_time = client.post(f"{BASE}/permits/BLD/extensions", data=MORE_TIME).url.path
    assert more_time.startswith(f"{BASE}/extensions/")
    client.post(f"{BASE}/calendar/key")
    client.post(f"{BASE}/lot", data={"new_lot": "Behind the house"})
    assert covering.startswith(f"{BASE}/coverings/")
    assert change.startswith(f"{BASE}/changes/")
    pages = (
        one_of_each(client, app)
        + MORE
        + (covering, change, more_time)
        + tuple(f"/builds/shed/{name}" for name in EMPTY)
    )
    with served(app) as address:
        yield Opened(app, address, token, pages)
    database.close()


def findings(page: Page, contrast: bool = True) -> list[str]:
    """What axe finds on the page as it stands. Evaluated by the browser itself, so the strict policy stays on."""
    page.evaluate(AXE)
    return page.evaluate(RUN, contrast)


def sideways(page: Page, width: int) -> list[str]:
    page.set_viewport_size({"width": width, "height": LOW["viewport"]["height"]})
    over = page.evaluate(SIDEWAYS)
    return [f"scrolls sideways by {over} px at {width}"] if over > 0 else []


def look_at_phone(page: Page) -> list[str]:
    """Contrast takes most of the time; what an address asks besides shows the same sheet in the same colours."""
    small = page.evaluate(SMALL)
    return [*findings(page, "?" not in page.url), *small, *sideways(page, 320), *sideways(page, 390)]


def look_at_desk(page: Page) -> list[str]:
    """Contrast is the same as on the phone, so only a few sheets are measured again."""
    over = page.evaluate(SIDEWAYS)
    contrast = page.url.endswith((*IN_EACH_LOOK, *PUBLIC, BEHIND[0]))
    return findings(page, contrast) + ([f"scrolls sideways by {over} px"] if over > 0 else [])


def looked_over(page: Page, places: Iterable[str], look: Callable[[Page], list[str]]) -> list[str]:
    found = []
    for place in places:
        page.goto(place)
        expect(page.locator("[hx-trigger=load]")).to_have_count(0)
        found += [f"{place}: {wrong}" for wrong in look(page)]
    return found


def in_look(page: Page, address: str, name: str) -> None:
    page.context.add_cookies([{"name": LOOK_COOKIE, "value": name, "url": address}])


def post(page: Page, path: str, **fields: str) -> int:
    """Send a form that no page has ready, as a page would; gives the status of the answer."""
    with page.expect_navigation() as answer:
        page.evaluate(SEND, [path, fields])
    return answer.value.status


def assert_none(found: list[str]) -> None:
    assert not found, "\n".join(found)


def test_no_sheet_is_left_out(opened: Opened):
    assert not_looked_at(opened.pages, opened.app) == set()
    assert len(opened.pages) > 100


def test_every_sheet_on_the_phone(chromium: Browser, opened: Opened):
    with watched(chromium, opened.address, opened.token, **LOW) as page:
        in_look(page, opened.address, "light")
        assert_none(looked_over(page, opened.pages, look_at_phone))


def test_every_sheet_on_the_laptop(chromium: Browser, opened: Opened):
    """One page of each kind; what an address asks besides changes words and not the sheet."""
    plain = dict.fromkeys(place.partition("?")[0] for place in opened.pages if place.startswith(BASE))
    with watched(chromium, opened.address, opened.token, **DESK) as page:
        in_look(page, opened.address, "light")
        assert_none(looked_over(page, plain, look_at_desk))


@pytest.mark.parametrize("look", ["dark", "sun"])
def test_the_other_looks(chromium: Browser, opened: Opened, look: str):
    with watched(chromium, opened.address, opened.token, **LOW) as page:
        in_look(page, opened.address, look)
        assert_none(looked_over(page, [*(f"{BASE}{path}" for path in IN_EACH_LOOK), BEHIND[0]], look_at_phone))


@pytest.mark.parametrize(("device", "look_at"), [(LOW, look_at_phone), (DESK, look_at_desk)], ids=["phone", "laptop"])
def test_what_is_open_to_everybody(chromium: Browser, opened: Opened, device, look_at):
    with watched(chromium, opened.address, None, **device) as page:
        assert_none(looked_over(page, PUBLIC, look_at))


def test_the_set_up_of_a_new_installation(chromium: Browser, app: FastAPI, database: Database):
    with database.writing() as session:
        token = offer_set_up(session)
    with served(app) as address, watched(chromium, address, None, **LOW) as page:
        assert_none(looked_over(page, [f"/set-up/{token}", "/sign-in"], look_at_phone))
        page.goto(f"/set-up/{token}")
        assert post(page, f"/set-up/{token}", name="", password="short") == 422
        assert_none(look_at_phone(page))


def test_forms_that_were_not_taken(chromium: Browser, opened: Opened):
    with watched(chromium, opened.address, opened.token, **LOW) as page:
        for path, fields in WRONG:
            page.goto(f"{BASE}/today")
            assert post(page, path, **fields) in {409, 422}, f"{path} was taken"
            assert_none([f"{path}, sent with {fields}: {wrong}" for wrong in look_at_phone(page)])


def test_a_circle_of_needs_is_drawn(chromium: Browser, opened: Opened):
    """The second task of the plan needs the first one; here the first shall need the second."""
    with watched(chromium, opened.address, opened.token, **LOW) as page:
        page.goto(f"{BASE}/tasks/1/needs")
        assert post(page, f"{BASE}/tasks/1/needs", needs_id="2", strength="hard") == 409
        expect(page.locator("svg.graph")).to_be_visible()
        assert_none(look_at_phone(page))


def test_what_is_wrong_would_be_noticed(chromium: Browser, opened: Opened):
    """The checks above can fail: a picture without words, a small button and a wide line are put in and found."""
    wrong = '<img src="/static/icons/icon.svg"><i class="tag"><a class="go" href="#main">x</a></i>'
    wrong += '<p class="n">' + "wide " * 100 + "</p>"
    with watched(chromium, opened.address, opened.token, **LOW) as page:
        page.goto(f"{BASE}/today")
        page.evaluate("(html) => document.querySelector('main').insertAdjacentHTML('beforeend', html)", wrong)
        found = " ".join(look_at_phone(page))
    assert "image-alt" in found
    assert 'href="#main">x</a> is ' in found
    assert "scrolls sideways" in found
