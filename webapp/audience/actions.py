"""Putting an episode up for everyone, and correcting it by date. What was put up is never rewritten."""

import secrets
from datetime import date, datetime
from pathlib import Path
from uuid import uuid4

from sqlmodel import Session

from webapp.audience import store
from webapp.audience.models import PublicBuild, PublicCorrection, PublicPicture, PublishedEpisode
from webapp.audience.rules.showing import picture_file, public_slug
from webapp.audience.rules.snapshot import SentPicture, Snapshot, cautions_to_text
from webapp.audience.rules.text import legible, summary_of, to_html
from webapp.photos import files
from webapp.photos.rules.names import LARGE, SMALL
from webapp.values.errors import NotFound, RuleBroken
from webapp.values.verdict import Reason, Verdict

PUBLIC_FOLDER = "public"
"""below the photos folder"""


def _build_row(session: Session, snapshot: Snapshot) -> PublicBuild:
    slug = public_slug(snapshot.slug)
    row = store.find_build_row(session, slug)
    if row is None:
        row = PublicBuild(slug=slug, name=snapshot.build, feed_id=uuid4().urn)
    row.name = legible(snapshot.build)
    session.add(row)
    session.flush()
    return row


def put_up(session: Session, photos: Path, snapshot: Snapshot, at: datetime) -> None:
    """Freeze one episode. Its pictures are on disk before the record says so; `at` is aware, UTC.

    Raises RuleBroken when an episode of this number is up already.
    """
    build = _build_row(session, snapshot)
    if store.find_episode_row(session, build.row_id, snapshot.number) is not None:
        raise RuleBroken(Verdict((Reason(f"Episode {snapshot.number} is public already."),)), "Not published")
    body_html = to_html(snapshot.text_md)
    row = PublishedEpisode(
        build_id=build.row_id,
        number=snapshot.number,
        entry_id=uuid4().urn,
        title=legible(snapshot.title),
        from_day=snapshot.from_day,
        to_day=snapshot.to_day,
        body_html=body_html,
        summary=summary_of(body_html),
        cautions=cautions_to_text(snapshot.cautions),
        author=snapshot.author,
        published_at=at,
        updated_at=at,
    )
    session.add(row)
    session.flush()
    for position, picture in enumerate(snapshot.pictures, 1):
        _put_picture(session, photos, row.row_id, position, picture)


def _put_picture(session: Session, photos: Path, episode_id: int, position: int, picture: SentPicture) -> None:
    name = secrets.token_hex(16)
    files.write_whole(photos / PUBLIC_FOLDER / picture_file(name, LARGE), picture.large)
    files.write_whole(photos / PUBLIC_FOLDER / picture_file(name, SMALL), picture.small)
    session.add(
        PublicPicture(
            episode_id=episode_id,
            position=position,
            name=name,
            caption=legible(picture.caption),
            alt=legible(picture.alt),
            width=picture.width,
            height=picture.height,
        )
    )


def introduce(session: Session, slug: str, words: str) -> None:
    """Say in one line what the build is, for viewers. Raises NotFound while nothing of it is public."""
    build = store.find_build_row(session, public_slug(slug))
    if build is None:
        raise NotFound("Nothing of this build is public yet.")
    build.what = legible(words)
    session.add(build)


def correct(session: Session, slug: str, number: int, words: str, day: date, at: datetime) -> None:
    """Add a dated correction above the text; the text stays as it was and readers of the feed are told."""
    build = store.find_build_row(session, public_slug(slug))
    row = store.find_episode_row(session, build.row_id, number) if build else None
    if row is None:
        raise NotFound("This episode is not public, so there is nothing to correct.")
    session.add(PublicCorrection(episode_id=row.row_id, day=day, words=legible(words), at=at))
    row.updated_at = at
    session.add(row)
