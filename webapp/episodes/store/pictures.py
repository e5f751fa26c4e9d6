"""Which pictures of a build an episode may be told with, and the day each falls on."""

from datetime import date
from typing import Any

from sqlalchemy import ColumnElement, Select, func, literal_column, or_, select, union
from sqlmodel import Session, col

from webapp.core.database import rows
from webapp.episodes.rules.facts import SpanPicture
from webapp.inspections.models import Result
from webapp.money.models import Spend
from webapp.photos.models import Photo
from webapp.surfaces.models import PicturePlace, PictureSlot, Surface
from webapp.workdays.models import Workday, WorkdayPhoto


def day_of_picture() -> ColumnElement[str]:
    """ISO text: the day it was taken, or the day it came where that is not known."""
    taken = func.substr(col(Photo.taken_at), 1, 10)
    return func.coalesce(taken, func.date(col(Photo.received_at)))


def _papers() -> Select[Any]:
    """Cards, slips and receipts: what stands on them is private, so they are never offered."""
    cards = select(col(Result.photo_id)).where(col(Result.photo_id).is_not(None))
    receipts = select(col(Spend.receipt_photo_id)).where(col(Spend.receipt_photo_id).is_not(None))
    return select(union(cards, receipts).subquery())


def of_build(build_id: Any) -> ColumnElement[bool]:
    """Whether a picture was put to a place of the build, fills a slot of it or came with one of its days."""
    placed = select(col(PicturePlace.photo_id)).where(col(PicturePlace.build_id) == build_id)
    came = (
        select(col(WorkdayPhoto.photo_id))
        .join(Workday, col(Workday.id) == col(WorkdayPhoto.workday_id))
        .where(col(Workday.build_id) == build_id)
    )
    filled = (
        select(col(PictureSlot.photo_id))
        .join(Surface, col(Surface.id) == col(PictureSlot.surface_id))
        .where(col(Surface.build_id) == build_id, col(PictureSlot.photo_id).is_not(None))
    )
    own = or_(*(col(Photo.id).in_(each) for each in (placed, came, filled)))
    return own & col(Photo.id).not_in(_papers())


def span_pictures(session: Session, build_id: int, from_day: date, to_day: date) -> tuple[SpanPicture, ...]:
    """Pictures of the span, the latest first."""
    day = day_of_picture()
    names = ("id", "sha256", "caption", "taken_at", "width", "height", "made")
    statement = (
        select(*(col(getattr(Photo, name)) for name in names), day)
        .where(of_build(build_id), day.between(from_day.isoformat(), to_day.isoformat()))
        .order_by(literal_column("8").desc(), col(Photo.id).desc())
    )
    return tuple(
        SpanPicture(row[0], row[1], row[2], date.fromisoformat(row[7]), row[3] is not None, row[4], row[5], row[6])
        for row in rows(session, statement)
    )
