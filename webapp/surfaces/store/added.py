"""When a surface was written down, so that what was said of the whole building before does not count for it."""

from collections.abc import Mapping
from datetime import datetime

from sqlalchemy import select
from sqlmodel import Session, col

from webapp.core.database import kept_list, rows
from webapp.surfaces.models import SurfaceChange

ADDED = "written down"
"""the field of the line that says so; surfaces from before such lines were kept have none"""


@kept_list
def list_added(session: Session, build_id: int) -> Mapping[int, datetime]:
    """By surface, the moment it was written down; one that is not in it was there from the beginning."""
    chosen = select(col(SurfaceChange.what_id), col(SurfaceChange.at)).where(
        col(SurfaceChange.build_id) == build_id,
        col(SurfaceChange.what_kind) == "surface",
        col(SurfaceChange.field) == ADDED,
    )
    return {row[0]: row[1] for row in rows(session, chosen)}
