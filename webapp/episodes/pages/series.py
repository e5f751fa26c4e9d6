"""The series: every episode, the one in the making first."""

from dataclasses import dataclass
from datetime import date, datetime

from sqlmodel import Session

from webapp.audience import store as audience
from webapp.audience.rules.showing import public_path, public_slug
from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.episodes import actions, store
from webapp.episodes.store import EpisodeLine, Holdings
from webapp.plan.guard import Here
from webapp.values.dates import show_date
from webapp.values.words import plural


def local(moment: datetime) -> datetime:
    """A moment of the record on the clock where the server stands."""
    return moment.astimezone()


def holds_words(holds: Holdings) -> str:
    """What an episode holds, in one line."""
    counts = (
        (holds.days, plural(holds.days, "day")),
        *((1, words) for words in holds.hours()),
        (holds.tasks_done, f"{plural(holds.tasks_done, 'task')} done"),
        (holds.results, plural(holds.results, "result")),
        (holds.pictures, plural(holds.pictures, "picture")),
        (holds.shots, plural(holds.shots, "shot")),
    )
    return ", ".join(words for count, words in counts if count) or "nothing yet"


def span_words(from_day: date, to_day: date | None) -> str:
    return f"{show_date(from_day)} to {show_date(to_day) if to_day else 'today'}"


@dataclass(frozen=True, slots=True)
class ListLine:
    number: int
    title: str
    href: str
    making: bool
    span: str
    holds: str
    published: str


@dataclass(frozen=True, slots=True)
class EpisodesPage:
    """All episodes, the one in the making first. `begin` is the form for the next one, None while one is open."""

    sheet: Sheet
    base: str
    lines: tuple[ListLine, ...]
    begin: FormState | None
    about: FormState | None
    public_href: str


def _line(base: str, line: EpisodeLine) -> ListLine:
    return ListLine(
        number=line.number,
        title=line.title or "No title yet",
        href=f"{base}/{line.number}",
        making=line.state == store.MAKING,
        span=span_words(line.from_day, line.to_day),
        holds=holds_words(line.holds),
        published=show_date(local(line.published_at).date()) if line.published_at else "",
    )


def episodes_page(
    session: Session, here: Here, begin: FormState | None = None, about: FormState | None = None
) -> EpisodesPage:
    lines = store.list_episodes(session, here.build.id, here.today)
    making = any(line.state == store.MAKING for line in lines)
    public = audience.find_build(session, public_slug(here.build.slug))
    base = f"{here.base}/episodes"
    if begin is None and not making:
        day = actions.first_day(session, here.build.id, here.today)
        begin = FormState.of(from_day=day.isoformat())
    if about is None and public:
        about = FormState.of(about=public.what)
    return EpisodesPage(
        sheet=here.sheet("F2", "Episodes"),
        base=base,
        lines=tuple(_line(base, line) for line in sorted(lines, key=lambda each: each.state != store.MAKING)),
        begin=begin,
        about=about,
        public_href=public_path(public.slug) if public else "",
    )
