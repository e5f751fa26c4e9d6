"""The phone's sheet: the code for its camera, what works where, and the page that leads through trusting."""

import dataclasses
import re

import numpy as np
import pytest
import zxingcpp
from fastapi.testclient import TestClient

from tests.conftest import OWN_PAGES
from tests.reading import soup, words
from webapp.accounts.guard import COOKIE
from webapp.main import create_trust_app
from webapp.phone.pages import Reachable, code_of

REACH = Reachable(("https://127.0.0.1:8730", "https://192.168.1.20:8730"), "http://192.168.1.20:8731", bytes(range(32)))


def test_over_https_the_page_shows_a_code_for_the_camera_and_the_fingerprint(client, app):
    app.state.reach = REACH
    page = client.get("/phone")
    assert soup(page).select_one("svg.qr")["aria-label"] == "Code for http://192.168.1.20:8731/"
    assert "00 01 02 03" in soup(page).select_one(".print").get_text()


def test_a_camera_reads_the_address_from_the_code():
    """Read by an independent reader (zxing-cpp) from the very squares that the page draws."""
    address = "http://192.168.1.20:8731/"
    code = code_of(address)
    picture = np.full((code.size, code.size), 255, dtype=np.uint8)
    for x, y in re.findall(r"M(\d+) (\d+)h1v1h-1z", code.path):
        picture[int(y), int(x)] = 0
    assert zxingcpp.read_barcode(picture.repeat(6, 0).repeat(6, 1)).text == address


def test_a_plain_address_says_what_does_not_work_and_that_the_rest_does(app, token):
    app.state.reach = dataclasses.replace(REACH, addresses=("http://192.168.1.20:8730",), trust="", digest=b"")
    phone = TestClient(app, base_url="http://192.168.1.20", headers=OWN_PAGES, cookies={COOKIE: token})
    told = words(phone.get("/phone"))
    assert "This address is not secure" in told
    assert "What does not work here" in told
    assert "Works the same: logging, pictures, results, what stops it." in told


@pytest.fixture
def trusting(settings):
    return TestClient(create_trust_app(settings, REACH, b"the authority", 8730), base_url="http://192.168.1.20:8731")


def test_the_page_beside_leads_through_trusting_without_a_sign_in(trusting):
    page = trusting.get("/", headers={"user-agent": "Mozilla/5.0 (Linux; Android 14)"})
    assert page.status_code == 200
    assert soup(page).select_one("details[open] summary").get_text() == "Android phone"
    assert "It has to read as here" in words(page)
    assert soup(page).select_one(".reach a")["href"] == "https://192.168.1.20:8730/"
    fetched = trusting.get("/studbay-authority.crt")
    assert (fetched.content, fetched.headers["content-type"]) == (b"the authority", "application/x-x509-ca-cert")


def test_nothing_else_is_answered_there_but_the_way_to_the_secure_address(trusting):
    for path in ("/builds/bindery/today", "/sign-in", "/watch", "//elsewhere.example"):
        answer = trusting.get(f"http://192.168.1.20:8731{path}", follow_redirects=False)
        assert answer.status_code == 307
        assert answer.headers["location"].startswith("https://192.168.1.20:8730/")
    assert trusting.post("/sign-in", data={"name": "me"}).status_code == 405
