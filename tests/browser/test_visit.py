"""Standing beside the inspector: a visit that passed in part is written down with what has to be put right."""

from datetime import date

import pytest
from playwright.sync_api import Page, expect

from tests import builders


@pytest.fixture
def visit(database, build) -> None:
    """Rough electrical of two walls, planned for today; board on each waits for it."""
    with database.writing() as session:
        phase = builders.a_phase(session, build)
        walls = []
        for position, (code, name) in enumerate((("E", "East wall"), ("S", "South wall")), 1):
            wall = builders.a_surface(session, build, code, name, facing=code, position=position)
            task = builders.a_task(session, phase, f"Hang the board on {code}", position)
            builders.works_on(session, task, wall, closes=True)
            walls.append(wall)
        permit = builders.a_permit(session, build)
        inspection = builders.an_inspection(session, permit, surfaces=tuple(walls), code="ROUGH")
        builders.a_visit(session, inspection, date(2026, 5, 16), outcome="asked", asked_on=date(2026, 5, 12))


def correction(page: Page, words: str, number: int) -> None:
    block = page.locator("#said")
    block.get_by_label("In the inspector’s words").nth(number - 1).fill(words)
    block.get_by_role("group", name="On", exact=True).nth(number - 1).get_by_text("South wall", exact=True).click()


def record_part_passed(page: Page) -> None:
    page.goto("/builds/bindery/today")
    page.get_by_role("link", name="Rough electrical").first.click()
    if page.get_by_role("link", name="Record the result").count():
        page.get_by_role("link", name="Record the result").click()
    page.get_by_role("group", name="East wall").get_by_text("Passed", exact=True).click()
    south = page.get_by_role("group", name="South wall")
    part = south.get_by_label("Which part passed")
    expect(part).to_be_hidden()
    south.get_by_text("Part", exact=True).click()
    part.fill("all but the two-gang box")
    correction(page, "Ground the two-gang box.", 1)
    page.get_by_role("button", name="One more correction").click()
    correction(page, "Turn the cable on edge, west of the window.", 2)
    page.get_by_role("button", name="Save the result").click()
    expect(page.get_by_role("status")).to_have_text("The result is on record.")


def test_a_part_passed_visit_with_two_corrections_frees_one_wall_and_stops_the_other(phone, visit):
    record_part_passed(phone)
    expect(phone.get_by_role("link", name="South wall")).to_contain_text("all but the two-gang box")
    expect(phone.get_by_role("link", name="South wall")).to_contain_text("2 corrections open")
    phone.goto("/builds/bindery/surfaces/S/before-cover")
    expect(phone.get_by_role("heading", level=1)).to_have_text("Do not cover")
    expect(phone.locator(".stops").get_by_role("link", name="Ground the two-gang box.").first).to_be_visible()
    expect(phone.locator(".stops").get_by_role("link", name="Turn the cable on edge").first).to_be_visible()
    phone.goto("/builds/bindery/surfaces/E/before-cover")
    expect(phone.get_by_role("heading", level=1)).to_have_text("May be covered")


def test_a_correction_goes_its_steps_and_the_wall_comes_free(phone, visit):
    record_part_passed(phone)
    for words in ("Ground the two-gang box.", "Turn the cable on edge"):
        phone.goto("/builds/bindery/inspections/ROUGH")
        phone.get_by_role("listitem").filter(has_text=words).get_by_role("link", name="Next step").click()
        phone.get_by_role("link", name="The inspector cleared it").click()
        phone.get_by_label("Who cleared it").fill("the inspector")
        phone.get_by_label("How they said so").fill("by telephone, ticket closed")
        phone.get_by_role("button", name="Clear it").click()
        expect(phone.get_by_role("status")).to_have_text("Written down.")
    phone.goto("/builds/bindery/surfaces/S/before-cover")
    expect(phone.get_by_role("link", name="Ground the two-gang box.")).to_have_count(0)


def test_a_part_that_is_not_named_is_asked_for_and_nothing_typed_is_lost(phone, visit):
    phone.goto("/builds/bindery/inspections/ROUGH")
    phone.get_by_role("link", name="Record the result").click()
    south = phone.get_by_role("group", name="South wall")
    south.get_by_text("Part", exact=True).click()
    phone.get_by_label("What I want to remember of it").fill("Two of them came.")
    phone.get_by_role("button", name="Save the result").click()
    expect(phone.get_by_role("alert")).to_contain_text("Which part passed? From where to where.")
    expect(south.get_by_label("Part", exact=True)).to_be_checked()
    expect(phone.get_by_label("What I want to remember of it")).to_have_value("Two of them came.")
    phone.get_by_role("link", name="Which part passed? From where to where.").click()
    south.get_by_label("Which part passed").fill("up to the window")
    phone.get_by_role("button", name="Save the result").click()
    expect(phone.get_by_role("status")).to_have_text("The result is on record.")


def test_an_ordinary_visit_takes_two_taps_and_same_for_all_is_seen_on_each_surface(phone, visit):
    phone.goto("/builds/bindery/inspections/ROUGH")
    phone.get_by_role("link", name="Record the result").click()
    phone.get_by_role("group", name="Same for all").get_by_text("Passed", exact=True).click()
    for name in ("East wall", "South wall"):
        expect(phone.get_by_role("group", name=name).get_by_label("Passed", exact=True)).to_be_checked()
    phone.get_by_role("button", name="Save the result").click()
    expect(phone.get_by_role("status")).to_have_text("The result is on record.")
    expect(phone.get_by_role("link", name="South wall")).to_contain_text("Passed")


def test_a_surface_ticked_by_itself_is_left_by_same_for_all(phone, visit):
    phone.goto("/builds/bindery/inspections/ROUGH")
    phone.get_by_role("link", name="Record the result").click()
    south = phone.get_by_role("group", name="South wall")
    south.get_by_text("Failed", exact=True).click()
    phone.get_by_role("group", name="Same for all").get_by_text("Passed", exact=True).click()
    expect(south.get_by_label("Failed", exact=True)).to_be_checked()


def test_a_correction_is_placed_by_a_tap_on_the_drawing_and_stands_there_with_its_number(phone, visit):
    record_part_passed(phone)
    one = phone.get_by_role("listitem").filter(has_text="Ground the two-gang box.")
    one.get_by_role("link", name="Next step").click()
    drawing = phone.locator("#place svg[data-scale]")
    expect(phone.get_by_text("Tap the drawing where the inspector pointed.")).to_be_visible()
    left, zero, along, across, way = map(float, drawing.get_attribute("data-scale").split())
    box, view = drawing.bounding_box(), drawing.get_attribute("viewBox").split()
    unit = box["width"] / float(view[2])
    x, y = 80 * builders.INCH, 48 * builders.INCH
    drawing.click(position={"x": (left + x * along) * unit, "y": (zero + way * y * across) * unit})
    found = [phone.locator(f"#place [name={name}]").input_value() for name in ("x", "y")]
    inches = [float(one.removesuffix(" in")) for one in found]
    assert abs(inches[0] - 80) <= 1, "as near as a finger is"
    assert abs(inches[1] - 48) <= 1
    phone.get_by_role("button", name="It is there").click()
    expect(phone.get_by_role("status").first).to_contain_text("On the drawing of South wall")
    phone.goto("/builds/bindery/surfaces/S")
    expect(phone.locator("#said").get_by_role("link", name="Correction 1: Ground the two-gang box.")).to_be_visible()
