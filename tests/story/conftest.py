"""The invented build, loaded once; every module that reads it gets a copy of the folder."""

import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path

import pytest
from fastapi.testclient import TestClient

from tests.conftest import OWN_PAGES, SATURDAY
from webapp.accounts.actions import begin_sign_in, ensure_demo_owner
from webapp.accounts.guard import COOKIE
from webapp.core import clock
from webapp.core.database import Database
from webapp.core.settings import Settings
from webapp.demo import actions
from webapp.demo.files.packaged import read_packaged
from webapp.demo.rules.content import Content, read_content
from webapp.main import create_app
from webapp.plan.store import get_build
from webapp.readiness.store import Site, look_over
from webapp.values.dates import show_date


@dataclass(frozen=True)
class Demo:
    """The demo as it is opened: its record, its pages for the builder and for somebody without a sign-in."""

    database: Database
    settings: Settings
    content: Content
    site: Site
    client: TestClient
    stranger: TestClient

    @property
    def saturday(self) -> date:
        return self.content.saturday

    def key(self, kind: str, words: str) -> str:
        """Key of the one node of `kind` whose title begins with `words`."""
        (found,) = (node.key for node in self.site.network.nodes if node.kind == kind and node.title.startswith(words))
        return found


@pytest.fixture(scope="module")
def demo(loaded: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Demo]:
    folder = tmp_path_factory.mktemp("opened") / "data"
    shutil.copytree(loaded, folder)
    settings = Settings(data=folder, demo=True)
    database = Database(settings.database)
    held = actions.held_day(database)
    with database.writing() as session:
        token = begin_sign_in(session, ensure_demo_owner(session), "test")
    with database.reading() as session:
        site = look_over(session, get_build(session, "bindery"), held)
    app = create_app(settings, database)
    app.dependency_overrides[clock.today] = lambda: held
    more = {"base_url": "http://127.0.0.1", "headers": OWN_PAGES, "follow_redirects": False}
    yield Demo(
        database=database,
        settings=settings,
        content=read_content(read_packaged(), SATURDAY, show_date),
        site=site,
        client=TestClient(app, cookies={COOKIE: token}, **more),
        stranger=TestClient(app, **more),
    )
    database.close()
