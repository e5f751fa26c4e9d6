"""The packet of a visit: what was ticked, page numbers, and nothing of the spend, of viewers or of secrets.

The PDF is read back by pypdf, which has nothing to do with the library that made it.
"""

import io
from datetime import date
from urllib.parse import urlencode

import pytest
from pypdf import PdfReader

from tests import builders, pictures
from tests.reading import links, soup, words
from webapp.core import pdf
from webapp.hired.models import Hired
from webapp.linetests.models import LineTest
from webapp.papers.actions import PaperDraft, add_paper

BASE = "/builds/bindery"


def _besides(session, build, surface_id: int) -> None:
    """Money, a name, a test and two papers."""
    builders.a_spend(session, build, "Board SECRETSPEND", total_cents=59_616, note="SECRETNOTE")
    session.add(
        Hired(build_id=build.row_id, code="H01", trade="electrician", name="SECRETNAME", recorded_at=builders.AT)
    )
    session.add(
        LineTest(
            build_id=build.row_id,
            surface_id=surface_id,
            kind="continuity",
            what="bench circuit",
            day=date(2026, 5, 8),
            start_reading="pass",
            end_reading="pass",
            outcome="held",
            recorded_at=builders.AT,
        )
    )
    about = (("surface", surface_id),)
    add_paper(
        session, build.row_id, PaperDraft("maker's instructions", "Window sheet", where="in the tube", about=about)
    )
    add_paper(session, build.row_id, PaperDraft("invoice or receipt", "Bill", where="folder", about=about))


@pytest.fixture
def visit(database, build, settings) -> str:
    """A visit to two walls with a drawing, pictures, a test, a cleared correction and two papers; money besides."""
    with database.writing() as session:
        east = builders.a_surface(session, build)
        north = builders.a_surface(session, build, "N", "North wall", position=2)
        builders.an_item(session, east, "Receptacle by the door")
        builders.a_run(session, east)
        gps = pictures.a_jpeg(taken="2026:05:09 17:48:00", place=True)
        photo = builders.a_picture(session, build, settings.photos, gps, surface_id=east.row_id)
        builders.a_slot(session, east, 1, photo_id=photo, filled_at=builders.AT)
        permit = builders.a_permit(session, build, number="B-2026-17")
        kind = builders.an_inspection(
            session, permit, surfaces=(east, north), code="IREL", must_be_ready="boxes open; ladder"
        )
        made = builders.a_visit(session, kind)
        result = builders.a_result(session, made, east, "passed")
        builders.a_correction(
            session, made, result, state="cleared", cleared_on=date(2026, 5, 9), cleared_by="me", clears_by="own word"
        )
        _besides(session, build, east.row_id)
        return f"{BASE}/visits/{made.row_id}"


def ticked(client, visit: str) -> dict[str, list[str]]:
    """What is sent when nothing is changed."""
    sent: dict[str, list[str]] = {}
    for box in soup(client.get(f"{visit}/packet")).select("input[checked]"):
        sent.setdefault(box["name"], []).append(box["value"])
    return sent


def told(client, visit: str, sent: dict[str, list[str]], kind: str = "pdf") -> str:
    answer = client.get(f"{visit}/packet/{kind}?{urlencode(sent, doseq=True)}")
    assert answer.status_code == 200, answer.text
    if kind == "print":
        return words(answer, "body")
    return " ".join(" ".join(page.extract_text().split()) for page in PdfReader(io.BytesIO(answer.content)).pages)


def test_the_visit_leads_to_its_packet(client, visit):
    assert links(client.get(visit))["Packet to print or send"] == f"{visit}/packet"


def test_the_ticks_hold_everything_but_papers_with_amounts(client, visit):
    sent = ticked(client, visit)
    assert sent["part"] == ["permit", "drawings", "tests", "corrections"]
    assert len(sent["place"]) == 2 and len(sent["picture"]) == 1
    assert sent["paper"] == ["PA01"]


@pytest.mark.parametrize("kind", ["print", "pdf"])
def test_everything_that_was_ticked_is_in_it(client, visit, kind):
    page = told(client, visit, ticked(client, visit), kind)
    for part in (
        "Rough electrical",
        "B-2026-17",
        "E East wall",
        "N North wall",
        "Boxes open",
        "Whole wall, tape in it",
        "Bench circuit",
        "Pass at both ends",
        "Plates on three studs",
        "Cleared by me",
        "PA01 Window sheet",
        "local authority decides",
    ):
        assert part in page, part


@pytest.mark.parametrize("kind", ["print", "pdf"])
def test_nothing_that_was_not_ticked_is_in_it_nor_money_nor_names(client, visit, kind):
    every = ticked(client, visit)
    page = told(client, visit, every, kind)
    for secret in ("SECRET", "596", "Bill", "viewer"):
        assert secret not in page, secret
    less = told(client, visit, {"place": every["place"][:1]}, kind)
    for part in ("B-2026-17", "North wall", "Bench circuit", "Plates", "Window sheet", "tape in it"):
        assert part not in less, part
    assert "East wall" in less


def test_each_page_of_the_pdf_has_its_number(client, visit):
    answer = client.get(f"{visit}/packet/pdf?{urlencode(ticked(client, visit), doseq=True)}")
    assert answer.headers["content-type"] == "application/pdf"
    assert answer.headers["content-disposition"].startswith("attachment")
    pages = PdfReader(io.BytesIO(answer.content)).pages
    for number, page in enumerate(pages, 1):
        assert f"Page {number} of {len(pages)}" in " ".join(page.extract_text().split())


def test_its_pictures_are_small_jpegs_without_any_tag(client, visit):
    answer = client.get(f"{visit}/packet/pdf?{urlencode(ticked(client, visit), doseq=True)}")
    found = [image for page in PdfReader(io.BytesIO(answer.content)).pages for image in page.images]
    assert len({image.name for image in found}) == 1
    assert max(found[0].image.size) <= 1000
    assert pictures.seen_corners(found[0].data) == pictures.CORNERS
    assert b"Exif" not in answer.content and b"Camera of nobody" not in answer.content


def test_a_picture_of_another_surface_cannot_be_asked_into_it(client, visit, database, build, settings):
    with database.writing() as session:
        other = builders.a_picture(session, build, settings.photos, pictures.a_png())
    answer = client.get(f"{visit}/packet/pdf?place=1&picture={other}")
    assert not [image for page in PdfReader(io.BytesIO(answer.content)).pages for image in page.images]


def test_words_that_look_like_addresses_are_fetched_from_nowhere(client, visit, database, monkeypatch):
    asked = []
    monkeypatch.setattr("socket.create_connection", lambda *where, **_: asked.append(where))
    with database.writing() as session:
        add_paper(
            session, 1, PaperDraft("letter", '<img src="http://127.0.0.1:9/x">', where="x", about=(("surface", 1),))
        )
    page = told(client, visit, {"paper": ["PA03"]})
    assert '<img src="http://127.0.0.1:9/x">' in page
    assert asked == []


def test_without_the_library_the_page_is_printed(client, visit, monkeypatch):
    monkeypatch.setattr(pdf.importlib, "import_module", lambda _name: (_ for _ in ()).throw(ImportError))
    page = client.get(f"{visit}/packet")
    assert "Print this page" in words(page) and "Make the PDF" not in words(page)
    assert client.get(f"{visit}/packet/pdf").status_code == 404
