"""Everything that waits for somebody or something else, and the next appointment."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from webapp.inspections.rules.facts import InspectionFacts, VisitFacts
from webapp.inspections.rules.kinds import Outcome
from webapp.inspections.rules.results import still_owed
from webapp.readiness.rules.network import Root, WaitsFor
from webapp.readiness.store import Site
from webapp.today.rules.appointment import Dimension, dimension
from webapp.values.dates import show_day
from webapp.values.words import join_words

SHOWN = 9
OF_ONE = 3
"""lines told of each one that is waited for"""
GATHERED = {"task"}
"""kinds of which all that wait undated for the same stand in one line"""


@dataclass(frozen=True, slots=True)
class WaitLine:
    letter: str
    whom: str
    what: str
    until: str
    href: str


@dataclass(frozen=True, slots=True)
class Appointment:
    """The next visit that is planned or asked for. `ask_label`: "Ask by" or "Asked for"."""

    what: str
    when: str
    window: str
    ask_label: str
    ask_day: str
    ask_hour: str
    late: bool
    line: Dimension
    href: str


def _gathered(roots: Iterable[Root]) -> list[list[Root]]:
    """One line for the places of one visit, and for what waits for the same hands until the same day."""
    lines: dict[tuple[str, str, date | None], list[Root]] = {}
    for root in roots:
        one = root.node.kind if root.node.kind in GATHERED and not root.until else root.node.href
        lines.setdefault((root.waits_for, one, root.until), []).append(root)
    return list(lines.values())


def _what(found: Site, roots: list[Root]) -> str:
    first = roots[0].node
    if len(roots) == 1:
        return first.title
    if first.kind == "inspection":
        codes = [found.record.surface[one].code for root in roots for one in root.node.surface_ids]
        return f"{first.title.rpartition(', ')[0]}: {join_words(codes)}"
    return f"{first.title} and {len(roots) - 1} more"


def _soonest(root: Root) -> tuple[bool, date, int]:
    """To pay, then what has a day; of the rest what holds up most comes first."""
    return root.waits_for is not WaitsFor.MONEY, root.until or date.max, -root.holds_up


def _few_of_each(gathered: Iterable[list[Root]]) -> list[list[Root]]:
    """The first few lines of each whom, so that many of one kind hide nothing that comes later."""
    told: Counter[str] = Counter()
    few = []
    for roots in gathered:
        whom = roots[0].waits_for
        told[whom] += 1
        if told[whom] <= OF_ONE:
            few.append(roots)
    return few


def wait_lines(found: Site) -> tuple[tuple[WaitLine, ...], int]:
    """Whom everything else waits for, soonest first, and how many lines are left out."""
    gathered = _gathered(sorted(found.network.waiting(), key=_soonest))
    told = _few_of_each(gathered)
    lines = tuple(
        WaitLine(
            letter=roots[0].waits_for.letter,
            whom=f"{roots[0].waits_for[:1].upper()}{roots[0].waits_for[1:]}",
            what=_what(found, roots),
            until=_until(found, roots[0]),
            href=roots[0].node.href if len(roots) == 1 or roots[0].node.kind == "inspection" else _all_of(found),
        )
        for roots in told[:SHOWN]
    )
    return lines, len(gathered) - len(lines)


def _until(found: Site, root: Root) -> str:
    """The day, if there is one; what dries since a day nobody wrote down says so."""
    if root.until is None:
        return "since an unknown day" if root.waits_for is WaitsFor.DRYING else ""
    return show_day(root.until, found.today)


def _all_of(found: Site) -> str:
    return f"{found.build.base}/what-stops"


def _next(found: Site) -> tuple[VisitFacts, InspectionFacts] | None:
    kinds = {one.id: one for one in found.record.inspections}
    ahead = {Outcome.PLANNED, Outcome.ASKED}
    for visit in found.record.visits:  # by day
        if visit.outcome in ahead and visit.day is not None and visit.day >= found.today:
            return visit, kinds[visit.inspection_id]
    return None


def _about(found: Site, kind: InspectionFacts) -> str:
    owed = still_owed(kind, found.record.standings[kind.id])
    codes = [found.record.surface[place].code for place in owed if place is not None]
    return f"{kind.name}: {join_words(codes)}" if codes else kind.name


def next_appointment(found: Site) -> Appointment | None:
    upcoming = _next(found)
    if upcoming is None or upcoming[0].day is None:
        return None
    visit, kind = upcoming
    day = upcoming[0].day
    asked = visit.outcome == Outcome.ASKED
    terms = found.record.offices.terms(kind.office_id, kind.notice_days, kind.ask_by)
    by = None if asked else terms.ask_by(day)
    return Appointment(
        what=_about(found, kind),
        when=show_day(day, found.today),
        window=visit.window,
        ask_label="Ask by" if by else "Asked for",
        ask_day=show_day(by, found.today) if by else show_day(visit.asked_on, found.today) if visit.asked_on else "yes",
        ask_hour=terms.ask_hour if by else "",
        late=by is not None and by < found.today,
        line=dimension(found.today, by, day),
        href=f"{found.build.base}/visits/{visit.id}",
    )
