"""The first page after the program was started is as quick as later ones."""

from fastapi.testclient import TestClient

from tests import builders
from tests.conftest import OWN_PAGES
from tests.counting import queries
from webapp import main
from webapp.accounts.guard import COOKIE


def test_the_first_page_after_a_start_finds_the_record_looked_over(database, build, app, token):
    with database.writing() as session:
        builders.a_task(session, builders.a_phase(session, build))
    client = TestClient(app, base_url="http://127.0.0.1", headers=OWN_PAGES, cookies={COOKIE: token})
    with client as started, queries(database) as asked:
        assert started.get("/builds/bindery/today").status_code == 200
    assert 0 < len(asked) <= 3, "\n".join(asked)


def test_a_record_that_cannot_be_looked_over_stops_no_start(database, build, app, token, monkeypatch, caplog):
    def broken(*_):
        raise ValueError("a circle nobody thought of")

    monkeypatch.setattr(main, "look_ahead", broken)
    with TestClient(app, base_url="http://127.0.0.1", headers=OWN_PAGES, cookies={COOKIE: token}) as started:
        assert started.get("/builds/bindery/phases").status_code == 200
    assert "could not be looked over" in caplog.text
