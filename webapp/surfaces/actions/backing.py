"""Saying that two surfaces are the faces of one wall. It is written down on one of the two and read from both."""

from sqlmodel import Session

from webapp.surfaces import store
from webapp.surfaces.actions.making import note_change
from webapp.surfaces.models import Surface
from webapp.surfaces.rules.back import other_face


def say_other_face(session: Session, build_id: int, surface_id: int, other_id: int | None) -> None:
    """The other face of a wall; None for none. What was said before stays readable, on both faces."""
    surfaces = store.list_surfaces(session, build_id)
    this = store.surface_by_id(session, build_id, surface_id)
    was, now = other_face(this, surfaces), store.surface_by_id(session, build_id, other_id) if other_id else None
    if (was and was.id) == (now and now.id):
        return
    if was is not None:
        for row_id in (this.id, was.id):
            row = session.get_one(Surface, row_id)
            row.back_of_id = None
            session.add(row)
        note_change(session, build_id, "surface", was.id, "other_face", this.name, "")
    if now is not None:
        row = session.get_one(Surface, this.id)
        row.back_of_id = now.id
        session.add(row)
        note_change(session, build_id, "surface", now.id, "other_face", "", this.name)
    note_change(session, build_id, "surface", this.id, "other_face", was and was.name, now and now.name)
