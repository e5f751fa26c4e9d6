"""The printed sheet of a surface: a true scale, a bar that measures what it says, schedules of all that is known."""

import re
from datetime import date
from fractions import Fraction

import pytest

from tests import builders
from tests.builders import INCH
from tests.reading import headings, links, soup, words
from webapp.plan.models import Build
from webapp.surfaces.models import Cover, Lifted

SHEET = "/builds/bindery/surfaces/E/sheet"
UNITS = 128
"""drawing units to an inch of paper"""


@pytest.fixture
def wall(database, build):
    with database.writing() as session:
        east = builders.a_surface(session, build, origin_corner="NE", spacing_nm=16 * INCH, first_stud_nm=12 * INCH)
        line = builders.a_line(session, build, "C02")
        builders.an_opening(session, east, "Entry door", kind="door", x_nm=110 * INCH, y_nm=0, height_nm=82 * INCH)
        new = builders.an_item(session, east, "Receptacle by the door", x_nm=58 * INCH)
        moved = {"replaced_on": date(2026, 5, 12), "replaced_by_id": new.row_id}
        builders.an_item(session, east, "Receptacle, first place", x_nm=30 * INCH, **moved)
        cleat = {"kind": "blocking", "service": "framing", "y_nm": 66 * INCH, "width_nm": 32 * INCH}
        builders.an_item(session, east, "Cleat, 2x6", x_nm=68 * INCH, note="for the coat rail", **cleat)
        builders.a_run(session, east, (14, 30), (58, 30), (58, 16), line_id=line.row_id)
        let_go = {"node_key": "slot:6", "what": "Picture 6: the plates", "why": "The light was gone."}
        session.add(Lifted(surface_id=east.row_id, on_day=date(2026, 5, 13), at=builders.AT, **let_go))
        closed = {"covered_on": date(2026, 5, 14), "layers": "board, one coat", "evidence": "[]"}
        session.add(Cover(surface_id=east.row_id, at=builders.AT, **closed))


def bar_units(answer) -> Fraction:
    """The bar is four boxes 8 units high, side by side: from the left edge of the first to the right of the last."""
    parts = re.findall(r"M([\d.]+) ([\d.]+)h([\d.]+)v8h-[\d.]+z", answer.text)
    assert len(parts) == 4 and len({y for _, y, _ in parts}) == 1
    ends = [(Fraction(x), Fraction(x) + Fraction(wide)) for x, _, wide in parts]
    return max(end for _, end in ends) - min(start for start, _ in ends)


def said_scale(answer) -> int:
    return int(re.search(r"\(1:(\d+)\)|Scale 1:(\d+)", words(answer)).expand(r"\1\2"))


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_the_bar_and_the_wall_measure_what_the_scale_says(client, wall, paper):
    """4 ft at the stated scale, exactly, to the two decimals a drawing is written with."""
    page = client.get(SHEET, params={"paper": paper})
    ratio = said_scale(page)
    assert abs(bar_units(page) / UNITS - Fraction(48, ratio)) < Fraction(4, 100 * UNITS)
    assert f"this bar, 0 to 4 ft, must measure {'1½' if ratio == 32 else '2'} in" in words(page)
    svg = soup(page).select_one("svg.true")
    inches = Fraction(svg["width"][:-2]) / (1 if svg["width"].endswith("in") else Fraction("25.4"))
    assert inches * UNITS == int(svg["viewbox"].split()[2]), "a drawing unit is a 128th of an inch"
    bottom = re.findall(r"M([\d.]+) ([\d.]+)L([\d.]+) \2", page.text)
    assert any(abs((Fraction(x2) - Fraction(x1)) / UNITS * ratio - 161) < Fraction(1, 8) for x1, _, x2 in bottom)


def test_a_metric_build_is_drawn_at_a_metric_scale_on_a4(client, database, build, wall):
    with database.writing() as session:
        session.get(Build, build.id).length_unit = "mm"
    page = client.get(SHEET)
    assert links(page, "header")["On Letter"] == f"{SHEET}?paper=letter"
    assert said_scale(page) in {10, 20, 25, 50}
    assert abs(bar_units(page) / UNITS * Fraction("25.4") - Fraction(1000, said_scale(page))) < Fraction(1, 100)
    assert soup(page).select_one("svg.true")["width"].endswith("mm")


def test_the_schedules_hold_all_that_is_known_and_all_that_is_not(client, wall):
    page = client.get(SHEET)
    assert headings(page) == [
        "East wall",
        "In it",
        "Runs, along / up",
        "Openings, along / up",
        "No screws",
        "Where you may fix",
        "What closed it",
        "Was here before",
        "What is not known",
    ]
    said = words(page).replace("\xa0", " ")
    for line in (
        "Receptacle by the door 4′ 10″ 1′ 4″",
        "C02 cable, 12-2 to the bench. 1′ 2″ / 2′ 6″ → 4′ 10″ / 2′ 6″ → 4′ 10″ / 1′ 4″",
        "4′ 7¾″ to 5′ ¼″ along, 1′ 1¾″ to 2′ 8¼″ up",
        "Cleat, 2x6: for the coat rail",
        "Closed Thu 14 May by me. board, one coat.",
        "Receptacle, first place. was at 2′ 6″ / 1′ 4″, until Tue 12 May",
        "Let go: Picture 6: the plates. Wed 13 May, me: The light was gone.",
        "not a survey, and no promise that nothing else is there",
    ):
        assert line in said
    cells = {tag.dt.get_text(): tag.dd.get_text(" ", strip=True) for tag in soup(page).select(".block dl > div")}
    assert cells["Build"] == "Bindery" and cells["Sheet"] == "W3-E" and cells["Paper"] == "Letter"
    assert cells["Printed"] == "16 May 2026" and cells["Last change"]


def test_what_cannot_be_drawn_still_has_its_schedules(client, database, build):
    with database.writing() as session:
        gable = builders.a_surface(session, build, "X", "Gable", length_nm=None)
        long = builders.a_surface(session, build, "Y", "Road", position=2, kind="trench", length_nm=3 * 10**12)
        builders.an_item(session, long, "Bend")
        assert gable.row_id
    assert "Not drawn: its length or its height is not on record." in words(client.get(SHEET.replace("E", "X")))
    page = client.get(SHEET.replace("/E/", "/Y/"))
    assert "Not drawn: at the smallest scale it is longer than the paper." in words(page)
    assert "Bend 1′ 2″ 1′ 4″" in words(page)


def test_the_answer_leads_to_the_sheet_and_the_sheet_back(client, stranger, wall):
    behind = "/builds/bindery/surfaces/E/behind"
    assert links(client.get(behind))["Print the sheet"] == f"{SHEET}?paper=letter"
    assert links(client.get(SHEET), "header")["Behind East wall"] == behind
    assert client.get("/builds/bindery/surfaces/Q/sheet").status_code == 404
    assert stranger.get(SHEET, follow_redirects=False).status_code in {303, 401}
