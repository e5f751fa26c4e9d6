"""The drawing under a thumb and at the desk: nearer and further away, placing in three taps, moving on purpose only."""

import re

import pytest
from playwright.sync_api import Page, expect

from tests import builders
from tests.browser.test_axe import findings
from tests.builders import INCH
from webapp.surfaces import store

DRAWING = "/builds/bindery/surfaces/E/drawing"
BOX = """() => {
  const svg = document.querySelector(".pane > svg:not([hidden])");
  return svg.getAttribute("viewBox").split(" ").map(Number);
}"""
SPOT = """([x, y]) => {
  const svg = document.querySelector(".pane > svg:not([hidden])"), box = svg.getBoundingClientRect();
  const [left, zero, along, across, way] = svg.dataset.scale.split(" ").map(Number);
  const [vx, vy, vw] = svg.getAttribute("viewBox").split(" ").map(Number), size = box.width / vw;
  return [box.left + (left + x * along - vx) * size, box.top + (zero + way * y * across - vy) * size];
}"""
"""where offsets in nanometres, counted from the left end of the drawing, lie on the screen: worked out here anew"""


@pytest.fixture
def wall(database, build):
    """The east wall, 161 in long from NE to SE, studs 16 in apart from 12 in on, with a door and two boxes."""
    with database.writing() as session:
        wall = builders.a_surface(session, build, origin_corner="NE", spacing_nm=16 * INCH, first_stud_nm=12 * INCH)
        builders.an_opening(session, wall, "Entry door", kind="door", x_nm=96 * INCH, y_nm=0, height_nm=82 * INCH)
        circuit = builders.a_line(session, build, "C02")
        more = {"is_box": True, "line_id": circuit.row_id}
        builders.an_item(session, wall, "East receptacle", x_nm=58 * INCH, **more)
        builders.an_item(session, wall, "Switch by the door", kind="switch", x_nm=88 * INCH, y_nm=46 * INCH, **more)


def opened(page: Page, query: str = "") -> None:
    page.goto(DRAWING + query)
    expect(page.locator(".pane")).to_be_visible()
    page.locator(".pane").evaluate("(pane) => pane.scrollIntoView({ block: 'start' })")


def spot(page: Page, x: float, y: float) -> tuple[float, float]:
    """Of so many inches from the left end and above the floor."""
    right, down = page.evaluate(SPOT, [x * INCH, y * INCH])
    return right, down


def width(page: Page) -> float:
    return page.evaluate(BOX)[2]


def until(page: Page, script: str) -> None:
    """Wait for it by looking again: the strict policy lets no page wait on a string."""
    for _ in range(100):
        if page.evaluate(script):
            return
        page.wait_for_timeout(50)
    raise AssertionError(f"never: {script}")


def swipe(page: Page, start: tuple[float, float], by: tuple[float, float], steps: int = 8) -> None:
    session = page.context.new_cdp_session(page)

    def send(kind: str, *points: dict[str, float]) -> None:
        session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": list(points)})

    send("touchStart", {"x": start[0], "y": start[1]})
    for step in range(1, steps + 1):
        send("touchMove", {"x": start[0] + by[0] * step / steps, "y": start[1] + by[1] * step / steps})
    send("touchEnd")


def pinch(page: Page, middle: tuple[float, float], begin: float, end: float) -> None:
    """Two fingers beside `middle`, so far from it at first and at last."""
    session, (x, y) = page.context.new_cdp_session(page), middle

    def send(kind: str, off: float | None) -> None:
        points = [] if off is None else [{"x": x - off, "y": y, "id": 0}, {"x": x + off, "y": y, "id": 1}]
        session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})

    send("touchStart", begin)
    for step in range(1, 9):
        send("touchMove", begin + (end - begin) * step / 8)
    send("touchEnd", None)


def kept(database, build):
    with database.reading() as session:
        return sorted(store.list_items(session, build.row_id), key=lambda one: one.id)


def test_a_thing_is_placed_with_three_taps(phone, database, build, wall):
    opened(phone)
    taps = []
    phone.evaluate("document.addEventListener('pointerdown', () => { window.taps = (window.taps ?? 0) + 1; }, true)")
    phone.get_by_role("button", name="Place").tap()
    right, down = spot(phone, 36, 46)
    phone.touchscreen.tap(right, down)
    where = phone.locator("#place [data-where]")
    expect(where).to_have_text(re.compile(r"^3′ .*″ from NE; (3′ (9|10|11)|4′)"))
    taps.append(phone.evaluate("window.taps"))
    phone.get_by_role("button", name="Switch").tap()
    expect(phone.get_by_role("status").first).to_contain_text("“Switch 2” is on record, on C02.")
    assert taps == [2], "the third one has saved it"
    made = kept(database, build)[-1]
    assert abs(made.x_nm - 36 * INCH) <= INCH, "where the finger was, to the mark of a tape"
    assert abs(made.y_nm - 46 * INCH) <= INCH
    assert made.x_nm % (INCH // 8) == made.y_nm % (INCH // 8) == 0
    assert (made.kind, made.line, made.is_box) == ("switch", "C02", True)
    assert phone.url.endswith(f"{DRAWING}?new={made.id}"), "the drawing stays"
    expect(phone.locator(".pane svg:not([hidden]) a.new")).to_have_attribute("aria-label", "E1, Switch 2")


def test_beside_a_stud_a_box_stands_against_it_and_from_the_other_side_too(desk, wall):
    """The stud at 28 in is 1 1/2 in wide, a narrow box 2 1/4 in: its centre is 28 - 3/4 - 1 1/8 = 26 1/8 in from NE."""
    opened(desk)
    desk.get_by_role("button", name="Place").click()
    desk.mouse.click(*spot(desk, 26.4, 60))
    where = desk.locator("#place [data-where]")
    expect(where).to_have_text(re.compile(r"2′ 2⅛″ from NE, beside the stud; (4′ 11⅞|5′ 0|5′ ⅛)″ above the floor"))
    expect(desk.locator("#place [name=x]")).to_have_value("2' 2-1/8\"")
    desk.mouse.click(*spot(desk, 28.3, 60))
    expect(desk.locator("#place [data-where]")).to_contain_text("2′ 4″ from NE, on the stud")
    opened(desk, "?mirror=1")
    desk.get_by_role("button", name="Place").click()
    desk.mouse.click(*spot(desk, 161 - 26.4, 60))
    expect(desk.locator("#place [data-where]")).to_contain_text("2′ 2⅛″ from NE, beside the stud")


def test_what_cannot_be_there_is_said_and_the_panel_stays_open_with_its_mark(phone, database, build, wall):
    opened(phone)
    phone.get_by_role("button", name="Place").tap()
    phone.touchscreen.tap(*spot(phone, 110, 40))
    phone.get_by_role("button", name="Receptacle").tap()
    expect(phone.locator("#e-x")).to_contain_text("Entry door")
    expect(phone.locator("#place")).to_be_visible()
    expect(phone.locator(".pane svg:not([hidden]) .spot:not([hidden])")).to_have_count(1)
    assert len(kept(database, build)) == 2


def test_two_fingers_bring_it_nearer_and_lettering_stays_lettering(phone, wall):
    opened(phone)
    whole, at = width(phone), spot(phone, 58, 50)
    pinch(phone, at, 30, 90)
    shown = phone.locator(".pane > svg:not([hidden])")
    expect(shown).to_have_attribute("aria-labelledby", "drawn-title drawn-words")
    lettering = "(svg) => 16 * svg.getBoundingClientRect().width / svg.viewBox.baseVal.width"
    assert shown.evaluate(lettering) >= 12.8, "measured lettering is shown once it can be read"
    again = spot(phone, 58, 50)
    assert abs(again[0] - at[0]) < 6, "what lies between the fingers stays there"
    assert abs(again[1] - at[1]) < 6
    pinch(phone, at, 120, 15)
    assert width(phone) == pytest.approx(whole, abs=0.1), "no further away than whole"


def test_seen_whole_a_finger_scrolls_the_page_and_nearer_it_moves_the_drawing(phone, wall):
    phone.goto(DRAWING)
    at = phone.locator(".pane").bounding_box()
    middle = (at["x"] + at["width"] / 2, at["y"] + at["height"] / 2)
    swipe(phone, middle, (0, -150))
    until(phone, "window.scrollY > 60")
    phone.evaluate("window.scrollTo(0, 0)")
    for _ in range(3):
        phone.get_by_role("button", name="Nearer").tap()
    phone.evaluate("window.scrollTo(0, 0)")
    before = phone.evaluate(BOX)
    swipe(phone, middle, (0, -100))
    after = phone.evaluate(BOX)
    assert after[1] > before[1] + 10, "the drawing went up"
    assert phone.evaluate("window.scrollY") == 0


def test_dragging_moves_nothing_until_move_is_pressed(phone, database, build, wall):
    opened(phone)
    swipe(phone, spot(phone, 58, 16), (50, 0))
    expect(phone.locator("#move")).to_be_hidden()
    assert kept(database, build)[0].x_nm == 58 * INCH


@pytest.mark.parametrize(("button", "moved"), [("Put right", False), ("It was moved", True)])
def test_what_is_dragged_is_saved_only_when_it_is_said_why(phone, database, build, wall, button, moved):
    """What was really moved leads on to what the move touches; nothing is moved before that is seen."""
    opened(phone)
    phone.get_by_role("button", name="Move").tap()
    start, end = spot(phone, 58, 16), spot(phone, 70, 30)
    swipe(phone, start, (end[0] - start[0], end[1] - start[1]))
    where = phone.locator("#move [data-where]")
    expect(where).to_have_text(re.compile(r"E1 East receptacle: 4′ 10″ → 5′ .* from NE, 1′ 4″ → 2′ .* above the floor"))
    assert kept(database, build)[0].x_nm == 58 * INCH, "nothing is saved yet"
    phone.wait_for_timeout(400)  # a finger lifted in full swing flings, and the browser takes a tap at once as its end
    phone.get_by_role("button", name=button).tap()
    if moved:
        expect(phone).to_have_url(re.compile("/changes/new"))
        assert kept(database, build)[0].replaced_on is None
        phone.get_by_role("button", name="Move it").tap()
        expect(phone.get_by_role("status").first).to_contain_text("has its new place")
    else:
        marked = phone.locator(".pane svg:not([hidden]) a.new")
        expect(marked).to_have_attribute("aria-label", re.compile("East receptacle"))
    found = kept(database, build)
    place = found[-1] if moved else found[0]
    assert abs(place.x_nm - 70 * INCH) <= INCH
    assert abs(place.y_nm - 30 * INCH) <= INCH
    assert len(found) == (3 if moved else 2)
    assert (found[0].replaced_on is not None) is moved


def test_everything_is_done_with_the_keyboard(desk, database, build, wall):
    opened(desk)
    pane = desk.locator(".pane")
    pane.focus()
    whole = width(desk)
    desk.keyboard.press("+")
    assert width(desk) < whole
    left = desk.evaluate(BOX)[0]
    desk.keyboard.press("ArrowRight")
    assert desk.evaluate(BOX)[0] > left
    desk.keyboard.press("0")
    assert width(desk) == pytest.approx(whole, abs=0.1)
    desk.get_by_role("button", name="Move").press("Enter")
    desk.locator(".pane svg:not([hidden]) a[aria-label^=E1]").press("Enter")
    for _ in range(4):
        desk.keyboard.press("ArrowRight")
    expect(desk.locator("#move [data-where]")).to_contain_text("4′ 10″ → 4′ 11″")
    desk.get_by_role("button", name="Put right").press("Enter")
    expect(desk.locator(".said")).to_contain_text("is put right")
    assert kept(database, build)[0].x_nm == 59 * INCH
    desk.get_by_role("button", name="Place").press("Enter")
    desk.keyboard.press("Enter")
    expect(desk.locator("#place [data-where]")).to_contain_text("from NE")
    desk.keyboard.press("Escape")
    expect(desk.locator("#place")).to_be_hidden()


def test_the_wheel_is_the_page_s_until_the_drawing_has_the_focus(desk, wall):
    opened(desk)
    whole = width(desk)
    desk.evaluate("window.scrollTo(0, 0)")
    desk.mouse.move(*spot(desk, 58, 90))
    desk.mouse.wheel(0, 200)
    until(desk, "window.scrollY > 50")
    assert width(desk) == pytest.approx(whole, abs=0.1)
    desk.locator(".pane").focus()
    desk.mouse.move(*spot(desk, 58, 50))
    desk.mouse.wheel(0, -300)
    until(desk, f"({BOX})()[2] < {whole} - 20")


@pytest.mark.parametrize("mode", ["Place", "Move"])
@pytest.mark.parametrize("device", ["phone", "desk"])
def test_nothing_is_found_by_axe_while_placing_or_moving(request, device, mode, wall):
    page = request.getfixturevalue(device)
    opened(page)
    page.get_by_role("button", name=mode).click()
    page.mouse.click(*spot(page, 58, 16))
    expect(page.locator("#place .kinds, #move .two").locator("visible=true")).to_have_count(1)
    page.evaluate("document.documentElement.scrollTop = 0")
    found = [one for one in findings(page) if not one.startswith("target-size")]
    assert found == []
    assert page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth") == 0


def test_without_scripts_offsets_are_typed(old_phone, database, build, wall):
    old_phone.goto(DRAWING)
    expect(old_phone.get_by_role("button", name="Move")).to_be_hidden()
    old_phone.get_by_role("link", name="Place").click()
    old_phone.locator("#place").get_by_label("From NE").fill("36")
    old_phone.locator("#place").get_by_label("Above the finished floor").fill("16")
    old_phone.get_by_role("button", name="Receptacle").click()
    expect(old_phone.locator(".said")).to_contain_text("“Receptacle 2” is on record, on C02.")
    assert kept(database, build)[-1].x_nm == 36 * INCH
