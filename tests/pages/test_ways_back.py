"""The way back from an error page leads to this server only, wherever somebody came from."""

import pytest

from tests.reading import links


@pytest.mark.parametrize(
    ("came_from", "way"),
    [
        ("https://somewhere.example//elsewhere.example/x", "/elsewhere.example/x"),
        ("https://somewhere.example/\\elsewhere.example/x", "/elsewhere.example/x"),
        ("http://127.0.0.1/builds/bindery/phases", "/builds/bindery/phases"),
        ("https://somewhere.example", "/"),
    ],
)
def test_the_way_back_stays_on_this_server(client, came_from, way):
    ways = links(client.get("/nowhere", headers={"referer": came_from})).values()
    assert way in ways
    assert not any(href.startswith(("//", "/\\")) for href in ways)
