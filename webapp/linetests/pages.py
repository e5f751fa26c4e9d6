"""W6: tests on lines. What was read and what the builder saw; the published value beside it as a reference."""

from dataclasses import dataclass
from datetime import datetime

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.linetests import forms, store
from webapp.linetests.rules.hours import minutes_between, show_span
from webapp.linetests.rules.kinds import TestKind, TestOutcome
from webapp.linetests.rules.published import GAUGE, VALUES
from webapp.linetests.rules.readings import also, moved
from webapp.linetests.store import TestChangeFacts, TestFacts
from webapp.plan.guard import Here
from webapp.surfaces import store as surfaces
from webapp.values.dates import show_date, show_day
from webapp.values.errors import NotFound

Choices = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class TestLine:
    """One test in a list."""

    __test__ = False
    title: str
    detail: str
    href: str
    since: str
    """ "Test on since 18:40", empty once it has ended"""
    stands: bool


@dataclass(frozen=True, slots=True)
class TestsPage:
    """W6. `on`: still running; `old`: done again or taken back."""

    __test__ = False
    sheet: Sheet
    on: tuple[TestLine, ...]
    done: tuple[TestLine, ...]
    old: tuple[TestLine, ...]
    new: str


@dataclass(frozen=True, slots=True)
class TestPage:
    """One test. `do`: which form is open: end, right, back, or none."""

    __test__ = False
    sheet: Sheet
    test: TestFacts
    what: str
    told: str
    """ "from 92 psi to 91 psi" """
    span: str
    facts: tuple[tuple[str, str], ...]
    wanted: str
    source: str
    gone: str
    changed: str
    changes: tuple[TestChangeFacts, ...]
    pictures: tuple[tuple[str, str], ...]
    """SHA-256 and words"""
    here: str
    again: str
    do: str
    fields: "Fields"
    seen: Choices
    form: FormState


@dataclass(frozen=True, slots=True)
class Fields:
    """What the fields of a test offer."""

    kinds: Choices
    lines: Choices
    places: Choices


@dataclass(frozen=True, slots=True)
class StartPage:
    """A test is put on. `offers`: published values as (key, words, detail)."""

    sheet: Sheet
    action: str
    fields: Fields
    offers: tuple[tuple[str, str, str], ...]
    gauge: str
    again: str
    form: FormState


@dataclass(frozen=True, slots=True)
class OfPage:
    """The tests of one line or surface, for the page of it."""

    sheet: Sheet
    label: str
    lines: tuple[TestLine, ...]
    new: str


def ids(session: Session, build_id: int) -> tuple[dict[str, int], dict[str, int]]:
    """What a form may send as line and as surface, to the id."""
    lines = {str(one.id): one.id for one in surfaces.list_lines(session, build_id)}
    return lines, {str(one.id): one.id for one in surfaces.list_surfaces(session, build_id)}


def _fields(session: Session, here: Here) -> Fields:
    lines, places = surfaces.list_lines(session, here.build.id), surfaces.list_surfaces(session, here.build.id)
    return Fields(
        kinds=tuple((each.value, f"{each.value[:1].upper()}{each.value[1:]}") for each in TestKind),
        lines=(("", "None"), *((str(one.id), f"{one.code} {one.name}") for one in lines)),
        places=(("", "Not one alone"), *((str(one.id), one.name) for one in places)),
    )


def lines_of(session: Session, here: Here, tests: tuple[TestFacts, ...]) -> tuple[TestLine, ...]:
    codes = {one.id: one.code for one in surfaces.list_lines(session, here.build.id)}
    return tuple(_line(here, one, codes) for one in tests)


def _line(here: Here, test: TestFacts, codes: dict[int, str]) -> TestLine:
    code = codes.get(test.line_id or 0, "")
    since = f"Test on since {_since(here, test)}" if test.running else ""
    told = moved(test.start_reading, test.end_reading)
    parts = (
        ", ".join(part for part in (test.kind, show_day(test.day, here.today), _hours(test)) if part),
        told,
        "" if test.running else f"I saw: {test.outcome}",
    )
    return TestLine(
        title=_first_up(f"{code} {test.what}".strip()),
        detail=" ".join(f"{part[:1].upper()}{part[1:]}." for part in parts if part),
        href=f"{here.base}/tests/{test.id}",
        since=since,
        stands=test.stands,
    )


def _since(here: Here, test: TestFacts) -> str:
    """The hour, with the day where it is not today."""
    if test.day == here.today and test.start_time:
        return test.start_time
    return ", ".join(part for part in (show_day(test.day, here.today), test.start_time) if part)


def _hours(test: TestFacts) -> str:
    """`18:50 to 19:20, 30 min`; with the day where it ran over midnight."""
    if not (test.start_time and test.end_time):
        return f"from {test.start_time}" if test.start_time else ""
    span = show_span(minutes_between(test.day, test.start_time, test.end_day or test.day, test.end_time))
    until = test.end_time
    if test.end_day and test.end_day != test.day:
        until = f"{until} on {show_day(test.end_day, test.day)}"
    return f"{test.start_time} to {until}, {span}"


def all_page(session: Session, here: Here) -> TestsPage:
    lines = lines_of(session, here, store.list_tests(session, here.build.id))
    return TestsPage(
        sheet=here.sheet("W6", "Tests on lines"),
        on=tuple(one for one in lines if one.since),
        done=tuple(one for one in lines if one.stands and not one.since),
        old=tuple(one for one in lines if not one.stands),
        new=f"{here.base}/tests/new",
    )


def those_on(session: Session, here: Here, surface_ids: tuple[int, ...]) -> tuple[TestFacts, ...]:
    """The tests that stand, of these surfaces and of the lines that run on them."""
    build_id = here.build.id
    runs = {one.line_id for one in surfaces.list_runs(session, build_id) if one.surface_id in surface_ids}
    items = {one.line_id for one in surfaces.list_items(session, build_id) if one.surface_id in surface_ids}
    lines = (runs | items) - {None}
    found = (one for one in store.list_tests(session, build_id) if one.stands)
    return tuple(
        one for one in found if one.surface_id in surface_ids or (one.surface_id is None and one.line_id in lines)
    )


def of_page(session: Session, here: Here, kind: str, code: str) -> OfPage:
    """The tests of a line, or of a surface and the lines on it."""
    new = f"{here.base}/tests/new"
    if kind == "line":
        line = surfaces.get_line(session, here.build.id, code)
        found = tuple(one for one in store.list_tests(session, here.build.id) if one.line_id == line.id and one.stands)
        label, new = f"{line.code} {line.name}", f"{new}?line={line.id}"
    elif kind == "surface":
        surface = surfaces.get_surface(session, here.build.id, code)
        found = those_on(session, here, (surface.id,))
        label, new = surface.name, f"{new}?surface={surface.id}"
    else:
        raise NotFound("Tests belong to a line or to a surface.")
    sheet = here.sheet("W6", "Tests on lines", f"Tests: {label}")
    return OfPage(sheet, label, lines_of(session, here, found), new)


def start_page(
    session: Session, here: Here, now: datetime, form: FormState | None = None, again: int | None = None, **asked: str
) -> StartPage:
    """`again`: the test that is done anew, whose words are taken over."""
    if form is None and again is not None:
        old = store.get_test(session, here.build.id, again)
        form = forms.blank(here.today, now, str(old.line_id or ""), str(old.surface_id or ""), old.kind, old.what)
    return StartPage(
        sheet=here.sheet("W6", "Tests on lines", "Put a test on"),
        action=f"{here.base}/tests",
        fields=_fields(session, here),
        offers=(
            ("", "None of these", "I write down what my office asks for"),
            *((one.key, f"{one.of}: {one.wanted}", f"{one.source}. {one.note}") for one in VALUES),
        ),
        gauge=GAUGE,
        again="" if again is None else str(again),
        form=form or forms.blank(here.today, now, **asked),
    )


def one_page(
    session: Session, here: Here, now: datetime, test_id: int, do: str = "", form: FormState | None = None
) -> TestPage:
    test = store.get_test(session, here.build.id, test_id)
    line = next((one for one in surfaces.list_lines(session, here.build.id) if one.id == test.line_id), None)
    shown = _line(here, test, {line.id: line.code} if line else {})
    do = do or ("end" if test.running else "")
    changed = store.changed_since(session, here.build.id, test)
    return TestPage(
        sheet=here.sheet("W6", "Tests on lines", shown.title),
        test=test,
        what=shown.title,
        told=shown.since or _first_up(moved(test.start_reading, test.end_reading)),
        span=_hours(test),
        facts=_facts(session, here, test, line.name if line else ""),
        wanted=test.wanted,
        source=test.wanted_source,
        gone=_gone(test),
        changed=f"Its line was changed on {show_date(changed)}, after this test." if changed else "",
        changes=store.list_test_changes(session, test_id),
        pictures=tuple(
            (sha, words) for sha, words in ((test.start_photo, "At the start"), (test.end_photo, "At the end")) if sha
        ),
        here=f"{here.base}/tests/{test_id}",
        again=f"{here.base}/tests/new?again={test_id}",
        do=do,
        fields=_fields(session, here),
        seen=_seen(),
        form=form or (forms.filled(test) if do == "right" else forms.ending(here.today, now)),
    )


def _first_up(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}"


def _seen() -> Choices:
    words = {
        TestOutcome.HELD: "It held",
        TestOutcome.MOVED: "It did not hold",
        TestOutcome.UNSURE: "I am not sure",
        TestOutcome.BROKEN_OFF: "I broke it off",
    }
    return tuple((each.value, said) for each, said in words.items())


def _gone(test: TestFacts) -> str:
    if test.ended_on:
        return f"Taken back on {show_date(test.ended_on)}: {test.ended_why.rstrip('.')}. It stays readable."
    return "It was done again since. It stays readable." if test.replaced_by_id else ""


def _facts(session: Session, here: Here, test: TestFacts, line: str) -> tuple[tuple[str, str], ...]:
    places = {one.id: one.name for one in surfaces.list_surfaces(session, here.build.id)}
    rows = (
        ("How", _first_up(test.kind)),
        ("Line", line),
        ("Surface", places.get(test.surface_id or 0, "")),
        ("At the start", _read(test.start_reading, test.start_time)),
        ("At the end", _read(test.end_reading, test.end_time)),
        ("What I saw", _first_up(test.outcome)),
    )
    return tuple((label, value) for label, value in rows if value)


def _read(reading: str, hour: str) -> str:
    """`92 psi at 19:00, about 634 kPa, 6.3 bar`."""
    at = f"{reading} at {hour}" if reading and hour else reading
    return ", ".join(part for part in (at, also(reading)) if part)
