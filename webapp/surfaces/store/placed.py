"""Pictures by where they belong: there may be tens of thousands, so only those asked for are read."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from sqlalchemy import ColumnElement, func, select
from sqlmodel import Session, col

from webapp.core.database import remembered, rows
from webapp.photos.models import Photo
from webapp.photos.store import PhotoFacts
from webapp.surfaces.models import PicturePlace
from webapp.surfaces.store.facts import PlaceFacts
from webapp.surfaces.store.lists import list_places

APART = timedelta(minutes=10)
"""between two pictures of one go: what a phone sends one by one over a slow link"""


@dataclass(frozen=True, slots=True)
class PictureCount:
    """How many pictures there are, and of how many nobody knows when they were taken."""

    all: int
    unknown: int


def places_of_photos(session: Session, build_id: int, photo_ids: Iterable[int]) -> tuple[PlaceFacts, ...]:
    """Where these pictures belong, the last placed first."""
    return list_places(session, build_id, col(PicturePlace.photo_id).in_(tuple(photo_ids)))


def places_on_surface(session: Session, build_id: int, surface_id: int) -> tuple[PlaceFacts, ...]:
    """What was placed on a surface, the last placed first; read again only after a picture was placed somewhere."""
    there = col(PicturePlace.surface_id) == surface_id
    return remembered(session, (list_places, build_id, surface_id), lambda: list_places(session, build_id, there))


def places_of_item(session: Session, build_id: int, item_id: int) -> tuple[PlaceFacts, ...]:
    """What was placed at a hidden thing, the last placed first."""
    return list_places(session, build_id, col(PicturePlace.item_id) == item_id)


def places_of_items(session: Session, build_id: int, item_ids: Iterable[int]) -> tuple[PlaceFacts, ...]:
    """What was placed at any of these hidden things, the last placed first."""
    return list_places(session, build_id, col(PicturePlace.item_id).in_(tuple(item_ids)))


def of_the_same_second(session: Session, build_id: int, photo_id: int, taken_at: str | None) -> tuple[int, ...]:
    """Other pictures of the build whose camera wrote the same second: a crop keeps it, a second shot seldom has it."""
    if taken_at is None:
        return ()
    statement = select(col(Photo.id)).where(
        col(Photo.taken_at) == taken_at,
        col(Photo.taken_from) == "camera",
        col(Photo.id) != photo_id,
        _placed(build_id, None),
    )
    return tuple(row[0] for row in rows(session, statement.order_by(col(Photo.id)).limit(12)))


def _placed(build_id: int, surface_id: int | None) -> ColumnElement[bool]:
    """Whether a picture belongs to the build; to this surface of it, where one is given."""
    places = select(col(PicturePlace.photo_id)).where(col(PicturePlace.build_id) == build_id)
    if surface_id is not None:
        places = places.where(col(PicturePlace.surface_id) == surface_id)
    return col(Photo.id).in_(places)


def count_pictures(session: Session, build_id: int, surface_id: int | None) -> PictureCount:
    """Of the whole build, or of one surface; a picture of two places counts once."""
    statement = select(func.count(), func.count().filter(col(Photo.taken_at).is_(None))).select_from(Photo)
    return PictureCount(*rows(session, statement.where(_placed(build_id, surface_id)))[0])


def pictures_by_surface(session: Session, build_id: int) -> Mapping[int, int]:
    """How many pictures each surface has; one that has none is not in it."""
    statement = (
        select(col(PicturePlace.surface_id), func.count(col(PicturePlace.photo_id).distinct()))
        .where(col(PicturePlace.build_id) == build_id, col(PicturePlace.surface_id).is_not(None))
        .group_by(col(PicturePlace.surface_id))
    )
    return {row[0]: row[1] for row in rows(session, statement)}


def picture_ids(
    session: Session, build_id: int, surface_id: int | None, unknown: bool, first: int, most: int
) -> tuple[int, ...]:
    """`most` pictures from the `first`, the last taken before all others.

    Where the taking is unknown the coming counts, on the clock of the site, so that a picture stands near those it came
    with. `unknown`: only these.
    """
    came = func.strftime("%Y-%m-%dT%H:%M:%S", col(Photo.received_at), "localtime")
    statement = select(col(Photo.id)).where(_placed(build_id, surface_id))
    if unknown:
        statement = statement.where(col(Photo.taken_at).is_(None))
    ordered = statement.order_by(
        func.coalesce(col(Photo.taken_at), came).desc(), col(Photo.received_at).desc(), col(Photo.id).desc()
    )
    return tuple(row[0] for row in rows(session, ordered.limit(most).offset(first)))


def ids_of_day(session: Session, build_id: int, day: date) -> tuple[int, ...]:
    """Every picture of the build that was taken on this day, in the order it was taken."""
    first, after = f"{day}T00:00:00", f"{day + timedelta(days=1)}T00:00:00"
    statement = select(col(Photo.id)).where(
        _placed(build_id, None), col(Photo.taken_at) >= first, col(Photo.taken_at) < after
    )
    return tuple(row[0] for row in rows(session, statement.order_by(col(Photo.taken_at), col(Photo.id))))


def ids_that_came_with(session: Session, build_id: int, photo: PhotoFacts) -> tuple[int, ...]:
    """Every picture of the build that came in the same go: no more than `APART` lies between one and the next."""
    around = timedelta(days=1)
    statement = select(col(Photo.id), col(Photo.received_at)).where(
        _placed(build_id, None),
        col(Photo.received_at) > photo.received_at - around,
        col(Photo.received_at) < photo.received_at + around,
    )
    came = [tuple(row) for row in rows(session, statement.order_by(col(Photo.received_at), col(Photo.id)))]
    goes: list[list[int]] = []
    for number, (photo_id, at) in enumerate(came):
        if not number or at - came[number - 1][1] > APART:
            goes.append([])
        goes[-1].append(photo_id)
    return tuple(next((go for go in goes if photo.id in go), []))
