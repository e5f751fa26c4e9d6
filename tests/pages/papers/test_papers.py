"""V7: papers as pictures, as files, or only the word where they lie; at hand where they are asked for."""

import hashlib
import io
from dataclasses import replace

import pytest
from fastapi.testclient import TestClient
from pypdf import PdfReader

from tests import builders, pictures
from tests.conftest import OWN_PAGES
from tests.counting import queries
from tests.pdfs import a_pdf
from tests.reading import field_errors, headings, links, words
from webapp.accounts.guard import COOKIE
from webapp.main import create_app
from webapp.papers import store

BASE = "/builds/bindery"
PAPERS = f"{BASE}/papers"
LETTER = {"name": "Truss and tie letter", "kind": "engineer's or truss paper", "day": "2026-02-03", "at_hand": "yes"}
HEIC_LIKE = b"\0\0\0\x18ftypheic"


def pdf(body: bytes = b"", name: str = "letter.pdf", media_type: str = "application/pdf") -> dict:
    return {"paper": (name, io.BytesIO(body or a_pdf()), media_type)}


@pytest.fixture
def site(database, build):
    with database.writing() as session:
        east = builders.a_surface(session, build)
        north = builders.a_surface(session, build, "N", "North wall", position=2)
        permit = builders.a_permit(session, build)
        rough = builders.an_inspection(session, permit, surfaces=(east,), code="IREL")
        visit = builders.a_visit(session, rough)
        return {"E": east.row_id, "N": north.row_id, "permit": permit.row_id, "visit": visit.row_id}


def added(client, files=None, **fields) -> str:
    """Short name of a paper that was taken."""
    answer = client.post(PAPERS, data=LETTER | fields, files=files)
    assert answer.status_code == 303, answer.text
    return answer.headers["location"].rpartition("/")[2]


def test_an_empty_sheet_says_what_papers_are_for(client):
    assert "at hand when the inspector asks" in words(client.get(PAPERS))


def test_a_pdf_is_kept_and_handed_over_byte_for_byte_and_never_run(client, settings):
    body = a_pdf()
    assert "Truss and tie letter" in PdfReader(io.BytesIO(body)).pages[0].extract_text()
    code = added(client, pdf(body))
    answer = client.get(f"{PAPERS}/{code}/file")
    assert answer.content == body
    assert answer.headers["content-type"] == "application/pdf"
    assert answer.headers["content-disposition"] == 'attachment; filename="letter.pdf"'
    assert answer.headers["x-content-type-options"] == "nosniff"
    assert answer.headers["content-security-policy"].startswith("sandbox")
    assert answer.headers["cache-control"].startswith("private")
    sha = hashlib.sha256(body).hexdigest()
    assert (settings.papers / "originals" / sha[:2] / sha).read_bytes() == body
    assert list((settings.papers / "incoming").iterdir()) == []


def test_a_picture_of_a_paper_is_a_picture_kept_as_it_came(client, database):
    body = pictures.a_jpeg()
    code = added(client, {"paper": ("IMG.JPG", io.BytesIO(body), "image/jpeg")})
    with database.reading() as session:
        paper = store.get_paper(session, 1, code)
    assert client.get(f"/photos/{paper.photo}/original").content == body
    assert f"/photos/{paper.photo}/original" in client.get(f"{PAPERS}/{code}").text


def test_a_paper_can_only_lie_on_site(client):
    code = added(client, name="Approved plans", kind="approved plan", where="in the tube by the door")
    page = words(client.get(f"{PAPERS}/{code}"))
    assert "No picture and no file of it: in the tube by the door." in page
    assert client.get(f"{PAPERS}/{code}/file").status_code == 404


@pytest.mark.parametrize(
    ("body", "name", "says"),
    [
        (b"%PDF-1.4 cut off", "letter.pdf", "did not arrive whole"),
        (b"MZ\x90\0 not a paper at all", "letter.pdf", "is not a picture"),
        (b"<html><script>alert(1)</script></html>", "letter.pdf", "is a web page"),
        (HEIC_LIKE, "letter.heic", "is not a picture"),
    ],
)
def test_a_file_is_taken_for_what_its_own_bytes_say(client, body, name, says):
    answer = client.post(PAPERS, data=LETTER, files=pdf(body, name))
    assert answer.status_code == 422
    assert says in field_errors(answer)["paper"]
    assert 'value="Truss and tie letter"' in answer.text


def test_a_file_that_is_too_large_is_refused_with_the_limit(settings, database, token, build, today):
    small = create_app(replace(settings, paper_mb=1), database)
    client = TestClient(small, base_url="http://127.0.0.1", headers=OWN_PAGES, cookies={COOKIE: token})
    answer = client.post(PAPERS, data=LETTER, files=pdf(b"%PDF-1.4" + b" " * 1_100_000 + b"%%EOF"))
    assert answer.status_code == 422
    assert "larger than 1 MB" in field_errors(answer)["paper"]


def test_nothing_at_all_is_no_paper_and_a_mistake_elsewhere_does_not_lose_the_file(client):
    answer = client.post(PAPERS, data=LETTER | {"name": "", "day": "2031-01-01"})
    told = field_errors(answer)
    assert told["paper"].endswith("Take a picture of it, choose its file, or say where it lies.")
    assert "still to come" in told["day"]
    answer = client.post(PAPERS, data=LETTER | {"name": ""}, files=pdf())
    assert set(field_errors(answer)) == {"name"}
    kept = answer.text.partition('name="paper_kept" value="')[2].partition('"')[0]
    code = added(client, paper_kept=kept)
    assert client.get(f"{PAPERS}/{code}/file").content == a_pdf()


def test_the_words_that_keep_a_file_cannot_reach_another_one(client, settings):
    (settings.data / "secret").write_bytes(b"private")
    answer = client.post(PAPERS, data=LETTER | {"paper_kept": "pdf:../../secret:7:secret"})
    assert "Take a picture" in field_errors(answer)["paper"]


def test_pressing_the_button_twice_keeps_one(client, database):
    sent = LETTER | {"where": "in the tube", "sent_id": "abc"}
    assert client.post(PAPERS, data=sent).headers["location"] == client.post(PAPERS, data=sent).headers["location"]
    with database.reading() as session:
        assert len(store.list_papers(session, 1)) == 1


def test_at_a_visit_lie_the_papers_of_its_permit_its_inspection_and_its_surfaces(client, site):
    where = {"where": "in the tube"}
    added(client, name="Plans", about=f"permit:{site['permit']}", **where)
    added(client, name="Window sheet", about=f"surface:{site['E']}", **where)
    added(client, name="North only", about=f"surface:{site['N']}", **where)
    added(client, name="Kept at home", about=f"permit:{site['permit']}", at_hand="", **where)
    visit = client.get(f"{BASE}/visits/{site['visit']}")
    assert f"{PAPERS}/of/visit/{site['visit']}" in links(visit, "#papers").values()
    found = words(client.get(f"{PAPERS}/of/visit/{site['visit']}"))
    assert "Plans" in found and "Window sheet" in found
    assert "North only" not in found and "Kept at home" not in found
    assert "Window sheet" in words(client.get(f"{PAPERS}/of/inspection/IREL"))
    assert "Kept at home" in words(client.get(f"{PAPERS}/of/permit/ELE"))
    assert "North only" in words(client.get(f"{PAPERS}/of/surface/N"))
    assert client.get(f"{PAPERS}/of/surface/X").status_code == 404


def test_a_paper_about_the_whole_build_is_at_hand_at_every_visit(client, site):
    added(client, name="Plan set", kind="approved plan", where="in the tube")
    assert "Plan set" in words(client.get(f"{PAPERS}/of/visit/{site['visit']}"))
    assert "Plan set" not in words(client.get(f"{PAPERS}/of/surface/E"))


def test_makers_instructions_stand_at_the_item_they_belong_to_and_at_its_visit(client, database, site):
    with database.writing() as session:
        item = builders.an_item(session, session.get_one(builders.Surface, site["E"]), "Extractor fan").row_id
    added(client, name="Fan sheet", kind="maker's instructions", about=f"item:{item}", where="in the folder")
    added(client, name="Letter of the wall", kind="letter", about=f"surface:{site['E']}", where="in the folder")
    of = links(client.get(f"{BASE}/surfaces/E/items/{item}"), "#papers")["Papers of it"]
    page = client.get(of)
    assert words(page, "ul.rows").startswith("Fan sheet")
    assert "1 about its surface or line" in words(page, "details") and "Letter of the wall" in words(page, "details")
    assert "Fan sheet" in words(client.get(f"{PAPERS}/of/visit/{site['visit']}"))
    assert not links(client.get(f"{BASE}/surfaces/E/items/new"), "#papers")


def test_papers_of_a_task_and_of_the_panel_stand_on_their_pages(client, database, build, site):
    with database.writing() as session:
        task = builders.a_task(session, builders.a_phase(session, build)).row_id
        east = session.get_one(builders.Surface, site["E"])
        panel = builders.an_item(session, east, "Sub-panel", kind="sub-panel").row_id
    added(client, name="Warranty, panel", kind="warranty", about=f"item:{panel}", where="in the folder")
    added(client, name="Hanger sheet", kind="maker's instructions", about=f"task:{task}", where="in the folder")
    for path, name in ((f"tasks/{task}", "Hanger sheet"), ("services/panel", "Warranty, panel")):
        of = links(client.get(f"{BASE}/{path}"))["Papers of it"]
        assert name in words(client.get(of), "ul.rows")


def test_many_papers_fold_after_the_first_and_what_is_asked_for_first_stands_first(client, site):
    for number in range(8):
        added(
            client, name=f"Card {number}", kind="permit or inspection card", about=f"surface:{site['E']}", where="here"
        )
    added(client, name="Old plan", kind="approved plan", day="2025-01-02", where="in the tube")
    page = client.get(f"{PAPERS}/of/visit/{site['visit']}")
    assert words(page, "ul.rows").startswith("Old plan")
    assert words(page, "details.more summary") == "4 more"
    assert len(links(page)) >= 9


def test_the_list_is_sifted_by_kind_and_by_place(client, site):
    added(client, name="Plans", kind="approved plan", where="in the tube", about=f"permit:{site['permit']}")
    added(client, name="Letter", where="in the tube", about_more=f"surface:{site['E']}")
    assert headings(client.get(PAPERS))[0] == "2 papers"
    assert "Letter" not in words(client.get(f"{PAPERS}?kind=approved plan"), ".papers")
    assert "Plans" not in words(client.get(f"{PAPERS}?at=surface/E"), ".papers")
    assert client.get(f"{PAPERS}?at=surface/Z").status_code == 404


def test_a_newer_one_takes_the_place_and_the_old_one_is_kept(client):
    first = added(client, pdf())
    newer = a_pdf("Truss and tie letter, revised")
    answer = client.post(f"{PAPERS}/{first}/edit", data=LETTER, files=pdf(newer))
    second = answer.headers["location"].rpartition("/")[2]
    assert second != first
    assert client.get(f"{PAPERS}/{first}/file").content == a_pdf()
    assert client.get(f"{PAPERS}/{second}/file").content == newer
    assert f"Replaced by {second}" in words(client.get(f"{PAPERS}/{first}"))
    assert f"Before it {first}" in words(client.get(f"{PAPERS}/{second}"))
    assert headings(client.get(PAPERS))[0] == "1 paper"


def test_its_words_are_put_right_in_place_but_another_day_keeps_the_old(client):
    code = added(client, pdf())
    answer = client.post(f"{PAPERS}/{code}/edit", data=LETTER | {"name": "Tie letter"})
    assert answer.headers["location"].endswith(code)
    answer = client.post(f"{PAPERS}/{code}/edit", data=LETTER | {"day": "2026-02-04"})
    other = answer.headers["location"].rpartition("/")[2]
    assert other != code
    assert client.get(f"{PAPERS}/{other}/file").content == a_pdf()
    assert "3 February 2026" in words(client.get(f"{PAPERS}/{code}"))


def test_a_paper_that_holds_no_more_is_put_away_and_stays_readable(client, site):
    code = added(client, where="in the tube", about=f"surface:{site['E']}")
    assert "still to come" in field_errors(client.post(f"{PAPERS}/{code}/end", data={"on": "2031-01-01"}))["on"]
    client.post(f"{PAPERS}/{code}/end", data={"on": "2026-05-10"})
    assert "It holds no more since 10 May 2026." in words(client.get(f"{PAPERS}/{code}"))
    assert "None is kept of it yet" in words(client.get(f"{PAPERS}/of/surface/E"))
    client.post(f"{PAPERS}/{code}/use")
    assert "Truss and tie letter" in words(client.get(f"{PAPERS}/of/surface/E"))


def test_the_house_file_lists_those_that_go_with_the_house(client):
    added(client, name="Warranty, door", kind="warranty", where="in the folder", in_house_file="yes")
    added(client, name="Letter of consent", kind="letter of consent", where="in the folder")
    page = words(client.get(f"{BASE}/house-file"))
    assert "Warranty, door Warranty. 3 February 2026. In the folder." in page
    assert "consent" not in page


def test_a_stranger_gets_no_paper(client, stranger):
    code = added(client, pdf())
    assert stranger.get(f"{PAPERS}/{code}/file").status_code in {303, 401}


def test_the_list_costs_the_same_for_five_and_for_fifty(client, database, site):
    counts = []
    for many in (5, 45):
        for _ in range(many):
            picture = {"paper": ("a.jpg", io.BytesIO(pictures.a_jpeg()), "image/jpeg")}
            added(client, picture, about=f"surface:{site['E']}")
        with queries(database, anew=True) as asked:
            assert client.get(PAPERS).status_code == 200
        counts.append(len(asked))
    assert counts[0] == counts[1]
