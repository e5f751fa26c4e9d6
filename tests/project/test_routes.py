"""Private by default: every route is public by this list, or asks who is there."""

import re

from fastapi.routing import APIRoute

from webapp.accounts.guard import signed_in

PUBLIC = {
    "/static/{name:path}",
    "/sign-in",
    "/set-up/{token}",
    "/demo/{token}",
    "/look",
    "/watch",
    "/watch/{slug}",
    "/watch/{slug}/feed.xml",
    "/watch/{slug}/{number}",
    "/watch/pictures/{name}",
}


def calls(dependant) -> set:
    """Every function a route depends on, directly or through others."""
    return {dependant.call} | {call for inner in dependant.dependencies for call in calls(inner)}


def all_routes(app) -> list[APIRoute]:
    def flat(routes):
        for route in routes:
            if isinstance(route, APIRoute):
                yield route
            elif hasattr(route, "routes"):
                yield from flat(route.routes)

    return list(flat(app.routes))


def test_every_route_is_guarded_or_listed_as_public(app):
    routes = all_routes(app)
    assert len(routes) > 40, "the routes were not found"
    open_ones = {route.path for route in routes if signed_in not in calls(route.dependant)}
    assert open_ones - PUBLIC == set(), "neither guarded nor listed"
    assert PUBLIC - {route.path for route in routes} == set(), "listed, but there is no such route"


def test_a_stranger_gets_nothing_from_any_guarded_route(app, stranger, build):
    """Asked for real, over HTTP, with something in each blank of the address."""
    for route in all_routes(app):
        if route.path in PUBLIC:
            continue
        address = re.sub(r"\{build\}", build.slug, route.path)
        address = re.sub(r"\{\w+(:\w+)?\}", "1", address)
        for method in route.methods:
            answer = stranger.request(method, address)
            assert answer.status_code in {303, 401}, f"{method} {address} answered {answer.status_code}"
            assert build.name not in answer.text


def test_the_old_pages_of_documentation_of_the_framework_are_not_there(client):
    for path in ("/docs", "/redoc", "/openapi.json"):
        assert client.get(path).status_code == 404
