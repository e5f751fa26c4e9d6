"""The series: nine episodes as they went out then, one dated correction, and the one in the making."""

from datetime import date, time
from pathlib import Path

from webapp.audience import actions as audience
from webapp.audience.rules.snapshot import SentPicture, Snapshot
from webapp.demo.actions.book import Book, moment
from webapp.demo.rules.telling import SHOWN, WITH_RESULTS, begins
from webapp.demo.rules.told_rows import Episode as EpisodeRow
from webapp.episodes.actions import AUTHOR, cautions_of
from webapp.episodes.models import Episode, EpisodePicture
from webapp.episodes.rules.drafting import INSPECTOR, as_markdown, draft
from webapp.episodes.store import span_facts
from webapp.photos.rules.names import LARGE, SMALL

_MIDDAY = time(12)


def write_episodes(book: Book, photos: Path) -> None:
    book.keep("episode", {row.id: _episode(book, row) for row in book.content.episodes})
    captions = {row.id: row.caption for row in book.content.pictures}
    for row in book.content.episodes:
        if row.published_day is not None:
            _choose(book, row, captions)
            audience.put_up(book.session, photos, _snapshot(book, row, captions), moment(row.published_day, _MIDDAY))
    audience.introduce(book.session, book.build.slug, book.build.what)
    _write_corrections(book)


def _episode(book: Book, row: EpisodeRow) -> Episode:
    out = row.published_day
    return Episode(
        build_id=book.build.id,
        number=row.number,
        title=row.title,
        from_day=begins(row, book.content.episodes),
        to_day=row.to_day if out else None,
        state="published" if out else "in the making",
        body_md=_text(book, row),
        published_at=moment(out, _MIDDAY) if out else None,
    )


def _text(book: Book, row: EpisodeRow) -> str:
    if row.number not in WITH_RESULTS:
        return row.body_md
    told = draft(span_facts(book.session, book.build, row.from_day, row.to_day))
    return f"{row.body_md}\n\n{as_markdown(sentence for sentence in told if sentence.section == INSPECTOR)}"


def _choose(book: Book, row: EpisodeRow, captions: dict[str, str]) -> None:
    for position, name in enumerate(SHOWN[row.number], 1):
        book.add(
            EpisodePicture(
                episode_id=book.id("episode", row.id),
                photo_id=book.id("photo", name),
                position=position,
                caption=captions[name],
                alt=_alt(captions[name]),
                looked_over=True,
            )
        )


def _alt(caption: str) -> str:
    return f"Site sketch: {caption[:1].lower()}{caption[1:]}"


def _snapshot(book: Book, row: EpisodeRow, captions: dict[str, str]) -> Snapshot:
    return Snapshot(
        slug=book.build.slug,
        build=book.build.name,
        number=row.number,
        title=row.title,
        from_day=row.from_day,
        to_day=row.to_day,
        text_md=_text(book, row),
        author=AUTHOR,
        cautions=cautions_of(book.session, book.build, row.from_day, row.to_day),
        pictures=tuple(_sent(book, name, captions[name]) for name in SHOWN[row.number]),
    )


def _sent(book: Book, name: str, caption: str) -> SentPicture:
    large, small = (book.painted[name].public[size] for size in (LARGE, SMALL))
    return SentPicture(large.body, small.body, large.width, large.height, caption, _alt(caption))


def _write_corrections(book: Book) -> None:
    """What is out. What is owed is not: no record of the public side knows of it."""
    numbers = {row.id: row.number for row in book.content.episodes}
    for row in book.content.episode_corrections:
        day: date | None = row.published_day
        if day is not None:
            number = numbers[row.episode]
            audience.correct(book.session, book.build.slug, number, row.words, day, moment(day, _MIDDAY))
