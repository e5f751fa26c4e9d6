"""Reading what was tapped on pictures."""

from dataclasses import dataclass
from datetime import date

from sqlalchemy import ColumnElement, func, select
from sqlmodel import Session, col

from webapp.core.database import rows
from webapp.surfaces.models import PicturePoint
from webapp.values.errors import NotFound


@dataclass(frozen=True, slots=True)
class PointFacts:
    """A spot of a picture by its number there, and the hidden thing that it became."""

    id: int
    photo_id: int
    surface_id: int
    number: int
    across: int
    down: int
    what: str
    x_nm: int | None
    y_nm: int | None
    known: bool
    item_id: int | None
    off_on: date | None


def list_points(session: Session, photo_id: int) -> tuple[PointFacts, ...]:
    """Those that stand on the picture, by number."""
    return _points(session, col(PicturePoint.photo_id) == photo_id, col(PicturePoint.off_on).is_(None))


def points_of_item(session: Session, item_id: int) -> tuple[PointFacts, ...]:
    return _points(session, col(PicturePoint.item_id) == item_id, col(PicturePoint.off_on).is_(None))


def get_point(session: Session, photo_id: int, point_id: int) -> PointFacts:
    for point in list_points(session, photo_id):
        if point.id == point_id:
            return point
    raise NotFound("There is no such spot on this picture.")


def last_number(session: Session, photo_id: int) -> int:
    """The highest number ever given on a picture."""
    highest = select(func.coalesce(func.max(col(PicturePoint.number)), 0))
    return int(rows(session, highest.where(col(PicturePoint.photo_id) == photo_id))[0][0])


def _points(session: Session, *where: ColumnElement[bool]) -> tuple[PointFacts, ...]:
    columns = (col(getattr(PicturePoint, name)) for name in PointFacts.__dataclass_fields__)
    statement = select(*columns).where(*where).order_by(col(PicturePoint.photo_id), col(PicturePoint.number))
    return tuple(PointFacts(*row) for row in rows(session, statement))
