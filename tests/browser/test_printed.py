"""The printed sheet measured in the PDF a browser makes, read with pypdf, a general-purpose library for PDF."""

import io
from itertools import pairwise

import pytest
from playwright.sync_api import Page
from pypdf import PageObject, PdfReader

from tests import builders
from tests.builders import INCH

SHEET = "/builds/bindery/surfaces/E/sheet?paper="
POINTS = {"a4": (595, 842), "letter": (612, 792)}
"""210 x 297 mm and 8 1/2 x 11 in, in points of 1/72 in"""
HIGH = 8 / 128 * 72
"""the scale bar is 8 units of 1/128 in high"""


@pytest.fixture
def wall(database, build) -> None:
    with database.writing() as session:
        east = builders.a_surface(session, build, origin_corner="NE", spacing_nm=16 * INCH, first_stud_nm=12 * INCH)
        for at in range(12):
            builders.an_item(session, east, f"Receptacle {at}", x_nm=(10 + 12 * at) * INCH)
            builders.a_run(session, east, (10 + 12 * at, 16), (10 + 12 * at, 100))


def print_it(page: Page, paper: str) -> PdfReader:
    page.goto(SHEET + paper)
    return PdfReader(io.BytesIO(page.pdf(prefer_css_page_size=True, print_background=True)))


def boxes(page: PageObject) -> list[tuple[float, float, float, float]]:
    """Left, low, width and height in points of every closed path, whatever the matrix it was drawn under."""
    found, corners = [], []

    def before(operator: bytes, operands: list, cm: list, _tm: list) -> None:
        if operator == b"m":
            corners.clear()
        if operator in {b"m", b"l"}:
            x, y = map(float, operands)
            corners.append((x * cm[0] + y * cm[2] + cm[4], x * cm[1] + y * cm[3] + cm[5]))
        elif operator == b"re":
            x, y, wide, tall = map(float, operands)
            found.append((x * cm[0] + cm[4], y * cm[3] + cm[5], abs(wide * cm[0]), abs(tall * cm[3])))
        elif operator == b"h" and corners:
            xs, ys = [x for x, _ in corners], [y for _, y in corners]
            found.append((min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys)))

    page.extract_text(visitor_operand_before=before)
    return found


def bar_points(page: PageObject) -> float:
    """The whole length of the scale bar: four boxes of its height side by side."""
    parts = sorted({(round(x, 2), round(w, 2)) for x, _, w, h in boxes(page) if abs(h - HIGH) < 0.02})
    assert len(parts) == 4, parts
    for (x1, w1), (x2, _) in pairwise(parts):
        assert x1 + w1 == pytest.approx(x2, abs=0.03)
    return parts[-1][0] + parts[-1][1] - parts[0][0]


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_printed_bar_measures_true_and_the_paper_is_the_one_asked_for(desk, wall, paper):
    read = print_it(desk, paper)
    for page in read.pages:
        size = sorted(float(at) for at in (page.mediabox.width, page.mediabox.height))
        assert size == pytest.approx(POINTS[paper], abs=0.5)
        assert "East wall" in page.extract_text(), "each page has its title block"
    said = desk.locator(".check b").inner_text()
    ratio = int(said.partition("(1:")[2].partition(")")[0])
    assert bar_points(read.pages[0]) == pytest.approx(48 / ratio * 72, abs=0.05), f"4 ft at {said}"


def test_what_one_page_does_not_hold_goes_on_the_next_and_nothing_is_cut_off(desk, wall):
    read = print_it(desk, "letter")
    text = " ".join(page.extract_text() for page in read.pages)
    assert len(read.pages) <= 2
    for at in range(12):
        assert f"Receptacle {at}" in text
    assert "What is not known" in text


def test_on_the_screen_the_drawing_is_as_wide_as_on_paper_and_the_page_does_not_slide(phone, desk, wall):
    for page in (phone, desk):
        page.goto(f"{SHEET}letter")
        box, said = page.locator("svg.true").bounding_box(), page.locator("svg.true").get_attribute("width")
        assert box["width"] == pytest.approx(float(said.removesuffix("in")) * 96, abs=0.1), "96 CSS pixels are an inch"
        assert page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth") <= 0
