"""The east wall, and the graph made from it as it stands in the session."""

from collections.abc import Callable
from datetime import date

import pytest

from tests import builders
from tests.eastwall import EastWall, an_east_wall
from webapp.plan.store import get_build
from webapp.readiness.rules import keys
from webapp.readiness.store import Site, look_over


@pytest.fixture
def here(session):
    """The build "Bindery", in the test's own session."""
    return builders.a_build(session)


@pytest.fixture
def wall(session, here) -> EastWall:
    return an_east_wall(session, here)


@pytest.fixture
def site(session, here, today) -> Callable[..., Site]:
    def look(on: date = today) -> Site:
        session.flush()
        return look_over(session, get_build(session, here.slug), on)

    return look


@pytest.fixture
def owed(site) -> Callable[..., list[str]]:
    """Titles of the hard stops of a surface's closing, then nothing else."""

    def titles(surface, on: date | None = None, hard: bool = True) -> list[str]:
        found = site(on) if on else site()
        return [need.node.title for need in found.network.unmet(keys.cover(surface.row_id)) if need.hard == hard]

    return titles
