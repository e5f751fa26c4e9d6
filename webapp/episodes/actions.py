"""Verbs of the series: begin an episode, keep its text, choose its pictures, publish it, correct it by date."""

from collections import Counter
from collections.abc import Sequence
from datetime import date, timedelta
from functools import partial
from pathlib import Path

from sqlmodel import Session

from webapp.audience import actions as audience
from webapp.audience.rules.snapshot import Caution, SentPicture, Snapshot
from webapp.core import clock
from webapp.episodes import store
from webapp.episodes.models import Episode, EpisodeChange, EpisodePicture
from webapp.episodes.rules.desk import Desk, PictureWords
from webapp.episodes.rules.drafting import Sentence, as_markdown
from webapp.episodes.rules.ready import GoingOut, PictureState, may_go_out
from webapp.episodes.rules.taken import no_longer_so, sentences_from_text, sentences_to_text
from webapp.episodes.store import ChosenPicture, EpisodeFacts
from webapp.photos import files
from webapp.photos.rules.names import LARGE, SMALL, original_name
from webapp.plan.rules.cautions import cautions_for
from webapp.plan.store import BuildFacts
from webapp.values.errors import BadInput, NotFound, RuleBroken
from webapp.values.own_words import spoken
from webapp.values.verdict import Reason, Verdict, Way
from webapp.workdays.rules.people import named_in, perhaps_named_in
from webapp.workdays.store.people import private_names

AUTHOR = "the builder"
"""who signs in public: no name goes out by itself"""
TWO_HANDS = 2
"""cautions for viewers leave out the note about a task that is down for one pair of hands"""


def first_day(session: Session, build_id: int, today: date) -> date:
    """Where the next episode begins: the day after the last one was cut, or today."""
    cut = store.last_day_told(session, build_id)
    return min(cut + timedelta(days=1), today) if cut else today


def begin_episode(session: Session, build_id: int, from_day: date) -> int:
    """Begin the next one; gives its number. Raises RuleBroken while another is in the making."""
    making = store.in_the_making(session, build_id)
    if making is not None:
        reason = Reason(f"Episode {making.number} is in the making", "Publish it first; then the next one begins.")
        raise RuleBroken(Verdict((reason,)), "Not begun")
    number = store.last_number(session, build_id) + 1
    session.add(Episode(build_id=build_id, number=number, from_day=from_day))
    session.flush()
    return number


def _open_row(session: Session, build: BuildFacts, number: int) -> Episode:
    """The episode, as long as it may be changed."""
    row = store.find_row(session, build.id, number)
    if row.state != store.MAKING:
        onward = Way("Add a dated correction", f"{build.base}/episodes/{number}#correct")
        reason = Reason(f"Episode {number} went out and stays as it was")
        raise RuleBroken(Verdict((reason,)), "Not changed", (onward,))
    return row


def _keep_words(session: Session, row: Episode, text: str) -> None:
    if text != row.body_md:
        if row.body_md:
            session.add(EpisodeChange(episode_id=row.row_id, was=row.body_md, at=clock.now()))
        row.body_md = text


def keep(session: Session, build: BuildFacts, number: int, desk: Desk) -> None:
    """Save what stands on the desk; a text that is replaced stays readable."""
    row = _open_row(session, build, number)
    _keep_words(session, row, desk.text)
    row.title, row.from_day, row.to_day = desk.title, desk.from_day, desk.to_day
    row.questions, row.show_hours, row.show_spend = desk.questions, desk.show_hours, desk.show_spend
    session.add(row)
    session.flush()


def take_over(session: Session, build: BuildFacts, number: int, sentences: Sequence[Sentence]) -> None:
    """Make the draft the text. What stood there before stays readable."""
    row = _open_row(session, build, number)
    _keep_words(session, row, as_markdown(sentences))
    row.drafted_from = sentences_to_text(sentences)
    session.add(row)


def choose_picture(session: Session, build: BuildFacts, number: int, photo_id: int) -> None:
    """Put a picture into the episode, the last of them. Choosing it twice changes nothing."""
    row = _open_row(session, build, number)
    if not store.is_offered(session, build.id, photo_id):
        raise NotFound("There is no such picture in this build.")
    if store.find_picture_row(session, row.row_id, photo_id) is None:
        last = max((each.position for each in store.list_pictures(session, row.row_id)), default=0)
        session.add(EpisodePicture(episode_id=row.row_id, photo_id=photo_id, position=last + 1))
        session.flush()


def describe_picture(session: Session, build: BuildFacts, number: int, words: PictureWords) -> None:
    """Say what is seen, and that the builder looked it over for what is private."""
    row = _open_row(session, build, number)
    picture = store.find_picture_row(session, row.row_id, words.photo_id)
    if picture is not None:
        picture.caption, picture.alt, picture.looked_over = words.caption, words.alt, words.looked_over
        session.add(picture)
        session.flush()


def leave_out(session: Session, build: BuildFacts, number: int, photo_id: int) -> None:
    """Take a picture out of the episode; the picture itself stays where it is."""
    row = _open_row(session, build, number)
    picture = store.find_picture_row(session, row.row_id, photo_id)
    if picture is not None:
        session.delete(picture)
        session.flush()


def going_out(
    session: Session, build: BuildFacts, episode: EpisodeFacts, sentences: Sequence[Sentence], today: date
) -> Verdict:
    """Whether it may go out as it stands in the record, and everything that is missing."""
    pictures = store.list_pictures(session, episode.id)
    told = [episode.title, episode.body_md, *(words for one in pictures for words in (one.caption, one.alt))]
    names, text = private_names(session, build.id), "\n".join(told)
    return may_go_out(
        GoingOut(
            title=episode.title,
            text=episode.body_md,
            from_day=episode.from_day,
            to_day=episode.to_day or today,
            today=today,
            last_told=store.last_day_told(session, build.id, before=episode.number),
            pictures=tuple(
                PictureState(place, each.photo_id, each.alt, each.looked_over, each.made == "broken")
                for place, each in enumerate(pictures, 1)
            ),
            no_longer_so=no_longer_so(sentences_from_text(episode.drafted_from), sentences),
            named=named_in(names, text),
            perhaps_named=perhaps_named_in(names, text),
            people_href=f"{build.base}/people",
        )
    )


def _encode(photos: Path, pictures: Sequence[ChosenPicture]) -> tuple[SentPicture, ...]:
    """Copies made anew from the originals, pixels only. Raises RuleBroken naming each that cannot be made."""
    made, reasons = [], []
    for place, each in enumerate(pictures, 1):
        try:
            copies = files.encode((photos / original_name(each.sha256)).read_bytes(), each.sha256[:8])
        except (BadInput, FileNotFoundError):
            href = f"#picture-{each.photo_id}"
            reasons.append(Reason(f"Picture {place} cannot be made ready", "Leave it out, or add it again.", href))
            continue
        large, small = copies[LARGE], copies[SMALL]
        made.append(SentPicture(large.body, small.body, large.width, large.height, each.caption, each.alt))
    if reasons:
        raise RuleBroken(Verdict(tuple(reasons)), "Not published")
    return tuple(made)


def cautions_of(session: Session, build: BuildFacts, from_day: date, to_day: date) -> tuple[Caution, ...]:
    """The usual cautions of every kind of work finished or worked on between the two days, each once; first those that
    most of the work calls for."""
    work = store.list_work(session, build.id, from_day, to_day)
    found = Counter(caution for kind, title in work for caution in cautions_for(kind, title, TWO_HANDS))
    said = partial(spoken, words=build.words)
    cautions = (each for each, _ in found.most_common())
    return tuple(Caution(said(each.heading), tuple(map(said, each.sentences)), each.source) for each in cautions)


def publish(
    session: Session, photos: Path, build: BuildFacts, number: int, sentences: Sequence[Sentence], today: date
) -> None:
    """Freeze the episode for everyone, cut it, and begin the next one. Raises RuleBroken with every reason."""
    row = _open_row(session, build, number)
    episode = store.get_episode(session, build.id, number)
    verdict = going_out(session, build, episode, sentences, today)
    if not verdict.allowed:
        raise RuleBroken(verdict, "Not published")
    to_day = episode.to_day or today
    snapshot = Snapshot(
        slug=build.slug,
        build=build.name,
        number=number,
        title=episode.title,
        from_day=episode.from_day,
        to_day=to_day,
        text_md=episode.body_md,
        author=AUTHOR,
        cautions=cautions_of(session, build, episode.from_day, to_day),
        pictures=_encode(photos, store.list_pictures(session, episode.id)),
    )
    at = clock.now()
    audience.put_up(session, photos, snapshot, at)
    row.state, row.to_day, row.published_at = store.PUBLISHED, to_day, at
    session.add(row)
    session.flush()
    begin_episode(session, build.id, to_day + timedelta(days=1))


def add_correction(session: Session, build: BuildFacts, number: int, words: str, day: date) -> None:
    """Correct a published episode by date: shown above its text, told to the feed's readers."""
    store.find_row(session, build.id, number)
    audience.correct(session, build.slug, number, words, day, clock.now())


def introduce(session: Session, build: BuildFacts, words: str) -> None:
    """Say in one line what the build is, for viewers."""
    audience.introduce(session, build.slug, words)
