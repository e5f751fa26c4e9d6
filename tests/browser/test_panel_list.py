"""The panel list printed: one sheet of paper, black on white, nothing of the page around it."""

import re

import pytest

from tests import builders

PANEL = "/builds/bindery/services/panel"


@pytest.fixture
def panel(database, build) -> None:
    """A panel of 24 spaces, half of them taken."""
    with database.writing() as session:
        for number in range(1, 25, 2):
            name = f"Receptacles, south-west {number}"
            builders.a_line(
                session, build, f"C{number}", number=str(number), name=name, room="binding room", position=number
            )


@pytest.mark.parametrize("paper", ["Letter", "A4"])
def test_twenty_four_spaces_fit_on_one_sheet_of_paper(phone, panel, paper):
    phone.goto(PANEL)
    margin = dict.fromkeys(("top", "right", "bottom", "left"), "0.5in")
    printed = phone.pdf(format=paper, margin=margin)
    # A page object of the file is "/Type /Page" (ISO 32000-1:2008, 7.7.3.3).
    assert len(re.findall(rb"/Type\s*/Page\b", printed)) == 1


def test_nothing_but_the_list_is_printed(phone, panel):
    phone.goto(PANEL)
    phone.emulate_media(media="print", color_scheme="dark")
    shown = phone.evaluate(
        "[...document.querySelectorAll('.strip, .tb, .looks, .unprinted')].map((e) => e.offsetHeight)"
    )
    assert shown and not any(shown)
    colours = "[document.documentElement, document.querySelector('.spaces b')].map((e) => getComputedStyle(e))"
    assert phone.evaluate(f"{colours}.map((s) => [s.backgroundColor, s.color])") == [
        ["rgb(255, 255, 255)", "rgb(0, 0, 0)"],
        ["rgba(0, 0, 0, 0)", "rgb(0, 0, 0)"],
    ]
    assert phone.locator(".caution").is_visible()
