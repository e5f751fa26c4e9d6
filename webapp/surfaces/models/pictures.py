"""Pictures owed of a surface, where pictures belong, and what was tapped on them."""

from datetime import date, datetime

from sqlalchemy import UniqueConstraint
from sqlmodel import Field

from webapp.core.tables import Table, one_of


class PictureSlot(Table, table=True):
    """A picture owed of a surface before it is closed."""

    __tablename__ = "surfaces_picture_slot"
    __table_args__ = (one_of("strength", ("must", "wish")), one_of("picture_set", ("before", "after", "general")))
    surface_id: int = Field(foreign_key="surfaces_surface.id", index=True)
    position: int
    number: int
    """as the builder counts them: picture 6"""
    picture_set: str = "before"
    """before insulation, after insulation, or general"""
    what: str = Field(max_length=200)
    strength: str = "must"
    photo_id: int | None = Field(default=None, foreign_key="photos_photo.id")
    filled_at: datetime | None = None
    made_from: str = Field(default="", max_length=40)
    """what on the surface asked for it, as a key: whole, third:2, item:14; empty where the builder did"""
    item_id: int | None = Field(default=None, foreign_key="surfaces_item.id", index=True)
    ended_on: date | None = None
    """the day what it shows was moved or taken away: from then on it is history and owed no more"""


class PicturePlace(Table, table=True):
    """Where a picture belongs. One picture can belong to several places."""

    __tablename__ = "surfaces_picture_place"
    __table_args__ = (UniqueConstraint("photo_id", "surface_id", "item_id"),)
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    photo_id: int = Field(foreign_key="photos_photo.id", index=True)
    surface_id: int | None = Field(default=None, foreign_key="surfaces_surface.id", index=True)
    item_id: int | None = Field(default=None, foreign_key="surfaces_item.id", index=True)
    stage: str = Field(default="general", max_length=20)
    x_nm: int | None = None
    y_nm: int | None = None
    """where it is pinned to the drawing, measured as items are"""
    placed_at: datetime


class PicturePoint(Table, table=True):
    """A spot tapped on a picture, such as a pencil mark on a stud: what it says, and what of the surface it became."""

    __tablename__ = "surfaces_picture_point"
    __table_args__ = (UniqueConstraint("photo_id", "number"),)
    photo_id: int = Field(foreign_key="photos_photo.id", index=True)
    surface_id: int = Field(foreign_key="surfaces_surface.id", index=True)
    number: int
    """as it stands on the picture; never given twice"""
    across: int
    """millionths of the picture's width from its left edge"""
    down: int
    """millionths of its height from its top"""
    what: str = Field(default="", max_length=120)
    x_nm: int | None = None
    y_nm: int | None = None
    """what is written there, or, of a known spot, where it is"""
    known: bool = False
    """whether it gives the scale"""
    item_id: int | None = Field(default=None, foreign_key="surfaces_item.id", index=True)
    off_on: date | None = None
    """the day it was taken off the picture; it stays on record"""
    at: datetime
