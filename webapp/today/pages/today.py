"""The first page: the surface nearest to closing, what can start now, what waits, the next appointment."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.sheets import Sheet
from webapp.plan.guard import Here
from webapp.readiness.pages.lapsing import Lapse, first_lapse
from webapp.readiness.pages.order import OrderLine, order_lines
from webapp.readiness.store import Site, site
from webapp.readiness.store.hanging import ToMove, to_move
from webapp.surfaces.rules.counting import ASKED_BY
from webapp.today.pages.alone import AloneToday, alone_today
from webapp.today.pages.gap import ComingBack, coming_back
from webapp.today.pages.section import SectionView, section_view
from webapp.today.pages.start import CanStart, can_start
from webapp.today.pages.tests import TestOn, tests_on
from webapp.today.pages.waits import Appointment, WaitLine, next_appointment, wait_lines
from webapp.today.rules.fits import Chance
from webapp.today.store import Beside, beside
from webapp.values.dates import show_day
from webapp.values.verdict import Way
from webapp.values.words import join_words, plural

MOST_SURFACES = 12
"""looked behind from here; the plan has them all"""


@dataclass(frozen=True, slots=True)
class EpisodeView:
    """The episode in the making and what it holds by now."""

    heading: str
    sentence: str
    href: str


@dataclass(frozen=True, slots=True)
class TodayPage:
    sheet: Sheet
    empty: bool
    day: str
    gap: ComingBack | None
    short: bool
    """after a gap only that head is shown, until more is asked for"""
    alone: AloneToday | None
    section: SectionView | None
    all_closed: bool
    start: CanStart
    waits: tuple[WaitLine, ...]
    more_waits: int
    appointment: Appointment | None
    lapse: Lapse | None
    episode: EpisodeView | None
    to_find: tuple[Way, ...]
    """boxes that were not found again after their surface was closed"""
    behind: tuple[tuple[str, str], ...]
    """code and name of surfaces to look behind, the first of the walk around the room"""
    tests: tuple[TestOn, ...]
    base: str
    breaches: tuple[OrderLine, ...]
    """hold points that the order breaks"""
    moves: tuple[ToMove, ...]
    """what is booked or planned on a day that no longer fits"""


def _episode(here: Here, found: Beside) -> EpisodeView | None:
    episode, holds = found.episode, found.holds
    if episode is None:
        return None
    counts = [
        (holds.days, plural(holds.days, "day")),
        *((1, words) for words in holds.hours()),
        (holds.tasks_done, f"{plural(holds.tasks_done, 'task')} done"),
        (holds.results, plural(holds.results, "result")),
        (holds.pictures, plural(holds.pictures, "picture")),
        (holds.shots, f"{plural(holds.shots, 'shot')} filmed"),
    ]
    held = join_words([words for count, words in counts if count])
    title = f": {episode.title}" if episode.title else ""
    return EpisodeView(
        heading=f"Episode {episode.number}{title}",
        sentence=f"Holds by now: {held}."
        if held
        else f"Begun {show_day(episode.from_day, here.today)}, holds nothing yet.",
        href=f"{here.base}/episodes/{episode.number}",
    )


def _to_find(here: Here, found: Site) -> tuple[Way, ...]:
    record = found.record
    return tuple(
        Way(f"{record.surface[one.surface_id].name}: {one.words}", f"{here.base}/questions/{one.id}")
        for one in record.questions
        if one.asked_by == ASKED_BY and one.settled_on is None and one.surface_id is not None
    )


def _is_empty(found: Site) -> bool:
    record = found.record
    return not (record.surfaces or record.permits or record.tasks)


def today_page(
    session: Session, here: Here, chance: Chance, *, whole: bool = False, over: bool = False, plain: bool = False
) -> TodayPage:
    """`over`: the hour has come that I told somebody I would be back by. `plain`: nothing was asked for."""
    found = site(session, here.build, here.today)
    about = beside(session, here.build, here.today)
    section = section_view(found, about.items)
    waits, more = wait_lines(found)
    to_find = _to_find(here, found)
    lapse = first_lapse(found)
    empty = _is_empty(found)
    gap = coming_back(session, found, about.last_day, lapse)
    return TodayPage(
        sheet=here.sheet("G1", "Today", "A clean sheet" if empty else "Today", section.key if section else ""),
        empty=empty,
        day=show_day(here.today, here.today),
        gap=gap,
        short=plain and gap is not None,
        alone=alone_today(session, here, found, chance, over=over),
        section=section,
        all_closed=bool(found.record.surfaces) and section is None,
        start=can_start(found, chance, whole=whole),
        waits=tuple(line for line in waits if line.href not in {way.href for way in to_find}),
        more_waits=more,
        appointment=next_appointment(found),
        lapse=lapse,
        episode=_episode(here, about),
        to_find=to_find,
        behind=tuple((one.code, one.name) for one in found.record.surfaces[:MOST_SURFACES]),
        tests=tests_on(session, here),
        base=here.base,
        breaches=order_lines(session, found),
        moves=to_move(session, found),
    )
