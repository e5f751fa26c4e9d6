"""What a phone keeps of a build, the worker that does it, and the ways in from the home screen."""

import json
import re
from urllib.parse import urlsplit

import pytest

from tests import builders
from tests.counting import queries
from webapp import paths


@pytest.fixture
def walls(database, build):
    with database.writing() as session:
        phase = builders.a_phase(session, build)
        for code, name in (("E", "East wall"), ("N", "North wall")):
            surface = builders.a_surface(session, build, code=code, name=name)
            builders.works_on(session, builders.a_task(session, phase, f"Board on {code}"), surface, closes=True)


def test_every_sheet_of_the_list_answers(client, walls):
    kept = client.get("/builds/bindery/kept").json()
    assert {"/builds/bindery/today", "/builds/bindery/surfaces/E/before-cover", "/builds/bindery/surfaces/N"} <= {
        *kept["pages"]
    }
    broken = {path: answer.status_code for path in kept["pages"] if (answer := client.get(path)).status_code != 200}
    assert broken == {}
    assert f'data-changed="{kept["changed"]}"' in client.get("/builds/bindery/today").text


def test_the_list_costs_the_same_for_five_surfaces_and_for_fifty(client, database, build):
    asked = []
    client.get("/builds/bindery/kept")
    for count in (5, 45):
        with database.writing() as session:
            for number in range(count):
                builders.a_surface(session, build, code=f"S{count}{number}", name=f"Wall {count} {number}")
        with queries(database) as statements:
            client.get("/builds/bindery/kept")
        asked.append(len(statements))
    assert asked[0] == asked[1]


def test_a_stranger_is_told_nothing(stranger, walls):
    assert stranger.get("/builds/bindery/kept", headers={"accept": "application/json"}).status_code == 401
    assert "Bindery" not in stranger.get("/sw.js").text + stranger.get("/not-kept").text


def test_the_worker_names_the_files_of_this_version_and_each_is_there(client):
    answer = client.get("/sw.js")
    assert answer.headers["content-type"].startswith("text/javascript")
    assert answer.headers["cache-control"] == "no-cache"
    version, files = re.match(r"const VERSION = (.+);\nconst FILES = (.+);\n", answer.text).groups()
    assert client.get("/builds").headers["studbay-version"] == json.loads(version)
    assert len(json.loads(files)) > 40
    for file in json.loads(files):
        assert client.get(file).headers["cache-control"].endswith("immutable"), file


@pytest.mark.parametrize(
    ("path", "to"),
    [
        ("/log-the-day", "/builds/bindery/workdays/log"),
        ("/before-cover", "/builds/bindery/before-cover"),
        ("/share", "/builds/bindery/pictures"),
    ],
)
def test_the_home_screen_leads_into_the_newest_build(client, build, path, to):
    assert client.get(path).headers["location"] == to


def test_the_manifest_names_ways_that_are_there(client, build):
    manifest = json.loads((paths.STATIC / "manifest.webmanifest").read_text())
    for way in (*(one["url"] for one in manifest["shortcuts"]), manifest["start_url"]):
        assert urlsplit(client.get(way).headers["location"]).path.startswith("/builds/bindery/")
    assert manifest["share_target"]["params"]["files"] == [{"name": "pictures", "accept": ["image/*"]}]
