"""The address `studbay demo` prints: it signs in by itself, in the demo only and on this machine only."""

from dataclasses import replace

import pytest
from fastapi.testclient import TestClient

from tests.conftest import OWN_PAGES
from webapp.main import create_app


@pytest.fixture
def demo(settings, database, build):
    app = create_app(replace(settings, demo=True), database)
    app.state.demo_token = "the-demo-token"
    return app


def asks(app, address: str) -> TestClient:
    return TestClient(
        app, base_url="http://127.0.0.1", headers=OWN_PAGES, follow_redirects=False, client=(address, 50000)
    )


def test_the_printed_address_signs_in(demo):
    browser = asks(demo, "127.0.0.1")
    assert browser.get("/demo/the-demo-token").headers["location"] == "/"
    assert browser.get("/settings").status_code == 200


def test_from_another_machine_there_is_no_such_page(demo):
    browser = asks(demo, "192.168.1.20")
    assert browser.get("/demo/the-demo-token").status_code == 404
    assert browser.get("/settings").status_code == 303


def test_whoever_comes_through_a_proxy_is_not_on_this_machine(demo):
    browser = asks(demo, "127.0.0.1")
    answer = browser.get("/demo/the-demo-token", headers={"x-forwarded-for": "192.168.1.20"})
    assert answer.status_code == 404


def test_another_word_does_not_open_the_demo(demo):
    assert asks(demo, "127.0.0.1").get("/demo/some-other-token").status_code == 404


def test_outside_the_demo_there_is_no_such_door(settings, database):
    app = create_app(settings, database)
    assert asks(app, "127.0.0.1").get("/demo/").status_code == 404
    app.state.demo_token = "left-over"
    assert asks(app, "127.0.0.1").get("/demo/left-over").status_code == 404
