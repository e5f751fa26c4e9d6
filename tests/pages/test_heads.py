"""HEAD is answered as GET is, without the body (RFC 9110, 9.3.2): by every page, file and picture there is."""

import asyncio
from concurrent.futures import ThreadPoolExecutor

import pytest

from tests import builders
from tests.project.test_routes import all_routes, filled
from webapp.accounts.guard import COOKIE
from webapp.backup import actions as backup

CHANGING = {"date", "set-cookie", "etag"}
"""what may differ between two answers to the same question"""


@pytest.fixture
def site(database, build):
    with database.writing() as session:
        phase = builders.a_phase(session, build)
        builders.a_task(session, phase)
        surface = builders.a_surface(session, build, code="1")
        builders.an_inspection(session, builders.a_permit(session, build, code="1"), surfaces=(surface,), code="1")


def test_every_route_that_answers_get_answers_head_the_same(app, client, build, site):
    paths = [filled(path, build) for method, path in all_routes(app) if method == "GET"]
    assert len(paths) > 50, "the routes were not found"
    statuses = {}
    for path in paths:
        get, head = client.get(path), client.head(path)
        assert head.status_code == get.status_code, path
        assert head.headers.get("location") == get.headers.get("location"), path
        statuses.setdefault(head.status_code, path)
    assert 200 in statuses and 405 not in statuses


@pytest.mark.parametrize("path", ["/builds/bindery/today", "/builds/bindery/surfaces/1", "/copies", "/watch"])
def test_the_headers_are_those_of_the_page(client, site, path):
    get, head = client.get(path), client.head(path)
    kept = {name for name in get.headers if name not in CHANGING}
    assert {name: head.headers[name] for name in kept} == {name: get.headers[name] for name in kept}
    assert int(head.headers["content-length"]) > 0


def test_a_stranger_is_sent_to_the_sign_in_by_head_too(stranger, build):
    answer = stranger.head("/builds/bindery/today")
    assert (answer.status_code, answer.headers["location"]) == (303, "/sign-in?next=/builds/bindery/today")


def test_nothing_is_changed_by_head_where_only_post_is_known(client, site):
    assert client.head("/builds/bindery/tasks/1/finish").status_code == 405


def asked_as_the_server_asks(app, path: str, token: str) -> list[dict]:
    """Every message the program sends to the server for a HEAD, as the ASGI specification 3.0 has it."""
    sent: list[dict] = []

    async def receive() -> dict:
        return {"type": "http.request", "body": b"", "more_body": False}

    async def send(message: dict) -> None:
        sent.append(message)

    names = ((b"host", b"127.0.0.1"), (b"accept", b"text/html"), (b"cookie", f"{COOKIE}={token}".encode()))
    scope = {"type": "http", "asgi": {"version": "3.0"}, "http_version": "1.1", "method": "HEAD", "path": path}
    scope |= {"raw_path": path.encode(), "query_string": b"", "scheme": "http", "headers": list(names)}
    scope |= {"server": ("127.0.0.1", 80), "client": ("127.0.0.1", 1)}

    async def ask() -> None:
        await app(scope, receive, send)

    # In a thread of its own: where browser tests run in the same process, this one has a loop running already.
    with ThreadPoolExecutor(1) as beside:
        beside.submit(lambda: asyncio.run(ask())).result()
    return sent


@pytest.mark.parametrize("what", ["page", "copy"])
def test_no_byte_of_the_body_is_sent(app, client, settings, token, site, what):
    made = backup.make_copy(settings)
    path, size = ("/builds/bindery/phases", None) if what == "page" else (f"/copies/{made.path.name}", made.size)
    start, *rest = asked_as_the_server_asks(app, path, token)
    assert start["status"] == 200
    assert rest == [{"type": "http.response.body", "body": b""}]
    length = int(dict(start["headers"])[b"content-length"])
    assert length == size if size else length > 0
