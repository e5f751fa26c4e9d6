"""Private by default: every route is public by this list, or asks who is there. Asked for real, over HTTP."""

import re
from collections.abc import Iterator

from fastapi.openapi.utils import get_openapi
from fastapi.testclient import TestClient

from tests.conftest import OWN_PAGES
from webapp.main import create_app

PUBLIC = {
    "/sign-in",
    "/set-up/{token}",
    "/demo/{token}",
    "/look",
    "/sw.js",
    "/not-kept",
    "/calendar/{secret}.ics",
    "/watch",
    "/watch/{slug}",
    "/watch/{slug}/feed.xml",
    "/watch/{slug}/{number}",
    "/watch/pictures/{name}",
}
"""and the static files, which are in no list of addresses"""


def all_routes(app) -> Iterator[tuple[str, str]]:
    """Method and path of every route of the program, from the framework's own description of it."""
    described = get_openapi(title="all", version="1", routes=app.routes)
    for path, methods in described["paths"].items():
        for method in methods:
            yield method.upper(), path


def filled(path: str, build) -> str:
    return re.sub(r"\{\w+(:\w+)?\}", "1", path.replace("{build}", build.slug))


def test_every_route_is_listed_as_public_or_gives_a_stranger_nothing(app, stranger, build):
    routes = list(all_routes(app))
    assert len(routes) > 80, "the routes were not found"
    for method, path in routes:
        if path in PUBLIC:
            continue
        answer = stranger.request(method, filled(path, build))
        assert answer.status_code in {303, 401}, f"{method} {path} answered {answer.status_code} to a stranger"
        if answer.status_code == 303:
            assert answer.headers["location"].startswith("/sign-in"), path
        assert build.name not in answer.text


def test_each_public_route_is_there_and_sends_nobody_to_the_sign_in(app, stranger, build):
    routes = list(all_routes(app))
    assert PUBLIC - {path for _, path in routes} == set(), "listed, but there is no such route"
    for method, path in routes:
        if path in PUBLIC:
            answer = stranger.request(method, filled(path, build))
            assert not answer.headers.get("location", "").startswith("/sign-in?next"), path
            assert answer.status_code != 401, path
            assert build.name not in answer.text, f"{path} names a build that has published nothing"


def test_the_guard_would_be_missed(settings, database, build):
    """The check above can fail: a route put in without the guard answers a stranger."""
    app = create_app(settings, database)
    app.add_api_route("/builds/{build}/left-open", lambda build: build)
    found = [path for _, path in all_routes(app) if path.endswith("left-open")]
    assert found == ["/builds/{build}/left-open"]
    with TestClient(app, base_url="http://127.0.0.1", headers=OWN_PAGES) as stranger:
        assert stranger.get(filled(found[0], build)).status_code == 200


def test_the_framework_s_own_pages_of_documentation_are_not_there(client):
    for path in ("/docs", "/redoc", "/openapi.json"):
        assert client.get(path).status_code == 404
