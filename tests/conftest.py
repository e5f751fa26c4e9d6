"""A real record for every test, made by the migrations; clients for the cast: the builder and a stranger."""

import shutil
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path

import hypothesis
import pytest
from fastapi import FastAPI
from fastapi.testclient import TestClient
from sqlmodel import Session

from tests import builders
from webapp.accounts.guard import COOKIE
from webapp.core import clock, migrating
from webapp.core.database import Database
from webapp.core.settings import Settings
from webapp.demo import actions as demo
from webapp.main import create_app, opened_over
from webapp.plan.models import Build

# No test is judged by the clock, and a run says the same twice; new cases are hunted by hand, without this profile.
hypothesis.settings.register_profile(
    "steady", deadline=None, derandomize=True, suppress_health_check=[hypothesis.HealthCheck.too_slow]
)
hypothesis.settings.load_profile("steady")

SATURDAY = date(2026, 5, 16)
OWN_PAGES = {"origin": "http://127.0.0.1", "sec-fetch-site": "same-origin", "accept": "text/html"}


@pytest.fixture(scope="session")
def empty_record(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A record at head, migrated once; each test gets its own copy of the file."""
    folder = tmp_path_factory.mktemp("record")
    migrating.upgrade(folder / "studbay.sqlite3", folder / "backups")
    return folder / "studbay.sqlite3"


@pytest.fixture(scope="session")
def loaded(tmp_path_factory: pytest.TempPathFactory, empty_record: Path) -> Path:
    """A folder with the invented build, loaded once on a Wednesday; who wants to write in it takes a copy."""
    settings = Settings(data=tmp_path_factory.mktemp("demo") / "data", demo=True)
    settings.photos.mkdir(parents=True)
    shutil.copy(empty_record, settings.database)
    database = Database(settings.database)
    assert demo.load(database, settings, SATURDAY + timedelta(days=4)) == "bindery"
    database.close()
    return settings.data


@pytest.fixture
def settings(tmp_path: Path, empty_record: Path) -> Settings:
    made = Settings(data=tmp_path / "data")
    made.photos.mkdir(parents=True)
    shutil.copy(empty_record, made.database)
    return made


@pytest.fixture
def database(settings: Settings) -> Iterator[Database]:
    opened = Database(settings.database)
    yield opened
    opened.close()


@pytest.fixture
def session(database: Database) -> Iterator[Session]:
    """A writing session for tests of actions: rolled back at the end, so commit through `database.writing()` instead
    where a page shall see it."""
    with Session(database.engines()[1], info={"database": database}) as opened:
        yield opened


@pytest.fixture
def today() -> date:
    return SATURDAY


@pytest.fixture(scope="session")
def program(tmp_path_factory: pytest.TempPathFactory) -> FastAPI:
    """Routes and middleware, put together once: reading every route's signature takes longer than most tests."""
    settings = Settings(data=tmp_path_factory.mktemp("unused"))
    return create_app(settings, Database(settings.database))


@pytest.fixture
def app(program: FastAPI, settings: Settings, database: Database, today: date) -> FastAPI:
    made = opened_over(program, settings, database)
    made.dependency_overrides = {clock.today: lambda: today}
    return made


@pytest.fixture
def build(database: Database) -> Build:
    """The build "Bindery", empty."""
    with database.writing() as session:
        made = builders.a_build(session)
        session.flush()
        session.refresh(made)
        session.expunge(made)
    return made


@pytest.fixture
def token(database: Database) -> str:
    """The cookie of the signed-in builder."""
    with database.writing() as session:
        return builders.a_sign_in(session)


@pytest.fixture
def client(app: FastAPI, token: str, build: Build) -> Iterator[TestClient]:
    """The builder, signed in, with the build "Bindery"."""
    with TestClient(
        app,
        base_url="http://127.0.0.1",
        headers=OWN_PAGES,
        cookies={COOKIE: token},
        follow_redirects=False,
        raise_server_exceptions=True,
    ) as made:
        yield made


@pytest.fixture
def stranger(app: FastAPI) -> Iterator[TestClient]:
    """Somebody without a sign-in."""
    with TestClient(app, base_url="http://127.0.0.1", headers=OWN_PAGES, follow_redirects=False) as made:
        yield made
