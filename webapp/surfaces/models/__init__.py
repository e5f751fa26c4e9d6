"""Tables of surfaces. Lengths are whole nanometres."""

from webapp.surfaces.models.pictures import PicturePlace, PicturePoint, PictureSlot
from webapp.surfaces.models.walls import (
    Cover,
    CoverStep,
    FixedTie,
    Item,
    Lifted,
    Opening,
    Question,
    Run,
    ServiceLine,
    ShotSurface,
    Surface,
    SurfaceChange,
    TaskSurface,
)

__all__ = [
    "Cover",
    "CoverStep",
    "FixedTie",
    "Item",
    "Lifted",
    "Opening",
    "PicturePlace",
    "PicturePoint",
    "PictureSlot",
    "Question",
    "Run",
    "ServiceLine",
    "ShotSurface",
    "Surface",
    "SurfaceChange",
    "TaskSurface",
]
