"""The draft desk: the draft with its facts, the text, the pictures, and what is missing before it may go out."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from itertools import groupby

from sqlmodel import Session

from webapp.audience.rules.text import to_html
from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.episodes import actions, store
from webapp.episodes.pages.series import holds_words, span_words
from webapp.episodes.rules.drafting import FactRef, Sentence, draft
from webapp.episodes.rules.facts import SpanFacts, SpanPicture
from webapp.episodes.rules.taken import new_since, sentences_from_text
from webapp.episodes.store import ChosenPicture, EpisodeFacts, KeptText
from webapp.photos.rules.names import LARGE, SMALL, fitted
from webapp.plan.guard import Here
from webapp.plan.store import BuildFacts
from webapp.values.dates import show_date
from webapp.values.verdict import Verdict
from webapp.values.words import plural

OFFERED_AT_ONCE = 60
"""pictures of the span shown before "Show all" """


@dataclass(frozen=True, slots=True)
class DraftLine:
    """One sentence of the draft, drawn with its facts beside it."""

    html: str
    facts: tuple[FactRef, ...]
    new: bool


@dataclass(frozen=True, slots=True)
class DraftPart:
    heading: str
    lines: tuple[DraftLine, ...]


@dataclass(frozen=True, slots=True)
class DeskPicture:
    """A picture as `photos/_picture.html` draws it."""

    id: int
    sha256: str
    alt: str
    made: str
    width: int
    height: int
    day: str

    @property
    def small(self) -> str:
        return f"/photos/{self.sha256}/{SMALL}"

    @property
    def large(self) -> str:
        return f"/photos/{self.sha256}/{LARGE}"


@dataclass(frozen=True, slots=True)
class DeskPage:
    """The draft desk. `form` holds everything typed; `verdict` says what is missing before it may go out."""

    sheet: Sheet
    base: str
    number: int
    title: str
    span: str
    holds: str
    parts: tuple[DraftPart, ...]
    taken: bool
    new: int
    verdict: Verdict
    answer: str
    refused: bool
    form: FormState
    chosen: tuple[DeskPicture, ...]
    offered: tuple[DeskPicture, ...]
    more_offered: int
    texts: tuple[KeptText, ...]


def whole_facts(session: Session, build: BuildFacts, episode: EpisodeFacts, today: date) -> SpanFacts:
    """The span's facts with what lies ahead and with the builder's own choices."""
    to_day = min(episode.to_day or today, today)
    facts = store.span_facts(session, build, episode.from_day, to_day)
    coming = store.ahead(session, build, today)
    return replace(
        facts,
        stops=coming.stops,
        next_phase=coming.next_phase,
        coming=coming.coming,
        questions=tuple(line.strip() for line in episode.questions.splitlines() if line.strip()),
        show_hours=episode.show_hours,
        show_spend=episode.show_spend,
    )


def draft_of(session: Session, build: BuildFacts, number: int, today: date) -> tuple[Sentence, ...]:
    episode = store.get_episode(session, build.id, number)
    return draft(whole_facts(session, build, episode, today))


def _parts(sentences: Sequence[Sentence], new: frozenset[str]) -> tuple[DraftPart, ...]:
    return tuple(
        DraftPart(section, tuple(DraftLine(to_html(each.text_md), each.facts, each.text_md in new) for each in group))
        for section, group in groupby(sentences, key=lambda sentence: sentence.section)
    )


def _defaults(episode: EpisodeFacts, pictures: Sequence[ChosenPicture]) -> FormState:
    """What the desk's fields hold before anything is typed."""
    values = {
        "title": episode.title,
        "from_day": episode.from_day.isoformat(),
        "to_day": episode.to_day.isoformat() if episode.to_day else "",
        "text": episode.body_md,
        "questions": episode.questions,
        "show_hours": "yes" if episode.show_hours else "",
        "show_spend": episode.show_spend,
    }
    for each in pictures:
        values[f"caption-{each.photo_id}"] = each.caption or ("" if each.alt else each.original_caption)
        values[f"alt-{each.photo_id}"] = each.alt
        values[f"looked-{each.photo_id}"] = "yes" if each.looked_over else ""
    return FormState.of(**values)


def _chosen(each: ChosenPicture) -> DeskPicture:
    day = show_date(date.fromisoformat(each.taken_at[:10])) if each.taken_at else "date unknown"
    width, height = fitted(each.width, each.height, SMALL)
    seen = each.alt or each.original_caption or "Picture without words"
    return DeskPicture(each.photo_id, each.sha256, seen, each.made, width, height, day)


def _offered(each: SpanPicture) -> DeskPicture:
    day = show_date(each.day) if each.taken else f"came {show_date(each.day)}"
    width, height = fitted(each.width, each.height, SMALL)
    return DeskPicture(
        each.photo_id, each.sha256, each.caption or "Picture without words", each.made, width, height, day
    )


def _answer(verdict: Verdict, tried: bool) -> str:
    missing = len(verdict.hard)
    if not missing:
        return "It may go out"
    return f"{'Not published' if tried else 'Not yet'}: {plural(missing, 'thing')} missing"


def desk_page(
    session: Session,
    here: Here,
    number: int,
    state: FormState | None = None,
    *,
    show_all: bool = False,
    refused: Verdict | None = None,
) -> DeskPage:
    """`state` is what was typed and not taken; `refused` is why it was not published."""
    episode = store.get_episode(session, here.build.id, number)
    facts = whole_facts(session, here.build, episode, here.today)
    sentences = draft(facts)
    taken = sentences_from_text(episode.drafted_from)
    new = new_since(taken, sentences) if taken else frozenset()
    pictures = store.list_pictures(session, episode.id)
    chosen = {each.photo_id for each in pictures}
    offered = [each for each in facts.pictures if each.photo_id not in chosen]
    shown = offered if show_all else offered[:OFFERED_AT_ONCE]
    verdict = refused or actions.going_out(session, here.build, episode, sentences, here.today)
    name = f"Episode {number}"
    return DeskPage(
        sheet=here.sheet(f"F2-{number}", name),
        base=f"{here.base}/episodes/{number}",
        number=number,
        title=f"{name}: {episode.title}" if episode.title else name,
        span=span_words(episode.from_day, episode.to_day),
        holds=holds_words(store.holds_by_now(session, here.build, here.today)),
        parts=_parts(sentences, new),
        taken=bool(taken),
        new=len(new),
        verdict=verdict,
        answer=_answer(verdict, refused is not None),
        refused=refused is not None,
        form=state or _defaults(episode, pictures),
        chosen=tuple(_chosen(each) for each in pictures),
        offered=tuple(_offered(each) for each in shown),
        more_offered=len(offered) - len(shown),
        texts=store.list_texts(session, episode.id),
    )
