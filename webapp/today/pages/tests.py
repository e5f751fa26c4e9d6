"""Tests that are still on: nobody should go home and forget one."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.linetests.pages import lines_of
from webapp.linetests.store import list_tests
from webapp.plan.guard import Here


@dataclass(frozen=True, slots=True)
class TestOn:
    """ "Test on since 18:40", of which line, and the reading it began with."""

    __test__ = False
    since: str
    title: str
    href: str


def tests_on(session: Session, here: Here) -> tuple[TestOn, ...]:
    """The latest begun first."""
    running = tuple(one for one in list_tests(session, here.build.id) if one.running)
    lines = lines_of(session, here, running) if running else ()
    return tuple(
        TestOn(line.since, f"{line.title}, {one.start_reading}" if one.start_reading else line.title, line.href)
        for line, one in zip(lines, running, strict=True)
    )
