"""What to show the inspector again at the next visit, and nothing else; and all there is to put right."""

from collections.abc import Iterable
from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.sheets import Sheet
from webapp.inspections import store
from webapp.inspections.pages.book import Book, CorrectionLine, read_book
from webapp.inspections.pages.marked import Marked, marked, spot_words
from webapp.inspections.rules.corrections import is_cleared
from webapp.inspections.rules.facts import CorrectionFacts
from webapp.inspections.rules.kinds import ClearsBy, CorrectionState, Outcome
from webapp.inspections.rules.results import still_owed, to_show
from webapp.plan.guard import Here
from webapp.values.dates import show_long_day
from webapp.values.duration import show_minutes
from webapp.values.own_words import own
from webapp.values.words import join_words, plural


@dataclass(frozen=True, slots=True)
class ShowLine:
    """One correction to show: `ready` says whether it is put right, `where` reads the tape."""

    line: CorrectionLine
    ready: bool
    done: str
    where: str
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class ShowPlace:
    """One surface that is looked at again, drawn with its corrections."""

    name: str
    stood: str
    seen: bool
    """it was looked at before"""
    map: Marked | None
    lines: tuple[ShowLine, ...]


@dataclass(frozen=True, slots=True)
class AgainPage:
    sheet: Sheet
    name: str
    lede: str
    places: tuple[ShowPlace, ...]
    not_ready: int
    back: str
    record: str
    base: str


@dataclass(frozen=True, slots=True)
class Work:
    """One correction as a piece of work."""

    line: CorrectionLine
    minutes: str
    href: str


@dataclass(frozen=True, slots=True)
class WorkGroup:
    heading: str
    note: str
    works: tuple[Work, ...]


@dataclass(frozen=True, slots=True)
class PutRightPage:
    sheet: Sheet
    lede: str
    groups: tuple[WorkGroup, ...]
    cleared: tuple[CorrectionLine, ...]
    advice: str
    inspections: str


def again_page(session: Session, here: Here, code: str) -> AgainPage:
    """The re-visit list of one inspection: only places not passed, and corrections that are to be seen."""
    book, one = read_book(session, here), store.get_inspection(session, here.build.id, code)
    found, owed = book.standings(one), to_show(one, book.results, book.corrections)
    wanted = {*still_owed(one, found), *(each.surface_id for each in owed)}
    shown = [place for place in one.places if place in wanted]
    visit = book.next_visit(one)
    not_ready = sum(each.state == CorrectionState.OPEN for each in owed)
    return AgainPage(
        sheet=here.sheet(f"V2-{one.position}", own("Inspections"), f"To show again: {one.name}"),
        name=one.name,
        lede=_lede(book, shown, owed, f"Visit: {show_long_day(visit.day)}. " if visit and visit.day else ""),
        places=tuple(
            ShowPlace(
                name=book.name(place),
                stood=f"{found[place].words[:1].upper()}{found[place].words[1:]}.",
                seen=found[place].kind is not None,
                map=_map(session, here, book, place, owed),
                lines=tuple(_show(here, book, each) for each in owed if each.surface_id == place),
            )
            for place in shown
        ),
        not_ready=not_ready,
        back=f"{here.base}/inspections/{one.code}",
        record=f"{here.base}/visits/{visit.id}" if visit and visit.outcome == Outcome.ASKED else "",
        base=here.base,
    )


def _lede(book: Book, places: Iterable[int | None], owed: tuple[CorrectionFacts, ...], visit: str) -> str:
    names = [book.name(place) for place in places]
    if not names:
        return "Nothing is to be shown again."
    return f"{visit}{join_words(names)}: {plural(len(owed), 'correction')} to show."


def _map(
    session: Session, here: Here, book: Book, place: int | None, owed: tuple[CorrectionFacts, ...]
) -> Marked | None:
    own = [each for each in owed if each.surface_id == place and each.x_nm is not None]
    return marked(session, here, book.surfaces[place], own, book.results) if place and own else None


def _show(here: Here, book: Book, one: CorrectionFacts) -> ShowLine:
    surface = book.surfaces.get(one.surface_id or 0)
    return ShowLine(
        line=book.correction_lines((one,))[0],
        ready=one.state != CorrectionState.OPEN,
        done="Put right." if one.state != CorrectionState.OPEN else "Not put right yet.",
        where=spot_words(here, surface, one.x_nm, one.y_nm) if surface else "",
        before=one.before,
        after=one.after,
    )


_GROUPS = (
    ("To put right", "my hands"),
    ("Done: say so, or send the picture", "a word or a picture of mine"),
    ("Waits for an answer", "the inspector"),
    ("Done: to be seen again", "the next visit"),
)


def _group(one: CorrectionFacts) -> int:
    if one.state == CorrectionState.OPEN:
        return 0
    if one.state == CorrectionState.SENT:
        return 2
    return 3 if one.clears_by == ClearsBy.REVISIT else 1


def put_right_page(session: Session, here: Here) -> PutRightPage:
    """V4: every correction that is open, as work with its time; the quickest first where a time is known."""
    book = read_book(session, here)
    cleared = [one for one in book.corrections if is_cleared(one, book.results)]
    still = [one for one in book.corrections if one not in cleared]
    todo = [one for one in still if _group(one) == 0]
    known = sum(one.likely_min or 0 for one in todo)
    unknown = sum(one.likely_min is None for one in todo)
    groups = []
    for at, (heading, note) in enumerate(_GROUPS):
        own = sorted((one for one in still if _group(one) == at), key=lambda one: (one.likely_min or 10**6, one.number))
        if own:
            groups.append(WorkGroup(heading, note, tuple(_work(book, one) for one in own)))
    return PutRightPage(
        sheet=here.sheet("V4", "To put right"),
        lede=_time_words(len(todo), known, unknown),
        groups=tuple(groups),
        cleared=book.correction_lines(tuple(reversed(cleared))),
        advice=f"{here.base}/advice",
        inspections=f"{here.base}/inspections",
    )


def _time_words(count: int, known: int, unknown: int) -> str:
    if not count:
        return "Nothing is left to put right with my hands."
    time = f", likely {show_minutes(known)}" if known else ""
    rest = f", and {plural(unknown, 'one')} without a time" if known and unknown else ""
    return f"{plural(count, 'correction')} to put right{time}{rest}."


def _work(book: Book, one: CorrectionFacts) -> Work:
    line = book.correction_lines((one,))[0]
    return Work(line, show_minutes(one.likely_min) if one.likely_min else "", line.href)
