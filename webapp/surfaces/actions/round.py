"""The round of surfaces, clockwise from the door: a surface is moved on it, or put in where it belongs."""

from collections.abc import Sequence

from sqlmodel import Session

from webapp.plan.rules.moves import shifted
from webapp.surfaces import store
from webapp.surfaces.actions.making import note_change
from webapp.surfaces.models import Surface

FIRST = "first"
"""in place of the short name of the surface it comes after; those are in capitals"""


def move_surface(session: Session, build_id: int, surface_id: int, by: int) -> None:
    """One place earlier (-1) or later (1) on the round; at its end nothing changes. What it was stays readable."""
    order = _order(session, build_id)
    _put_in_order(session, build_id, surface_id, order, shifted(order, surface_id, by))


def put_after(session: Session, build_id: int, surface_id: int, after: str) -> None:
    """Behind the surface with this short name, or `FIRST`; a name that no surface has leaves it where it is."""
    order = _order(session, build_id)
    codes = {surface.code: surface.id for surface in store.list_surfaces(session, build_id)}
    rest = [one for one in order if one != surface_id]
    if after != FIRST and codes.get(after) not in rest:
        return
    place = 0 if after == FIRST else rest.index(codes[after]) + 1
    _put_in_order(session, build_id, surface_id, order, (*rest[:place], surface_id, *rest[place:]))


def _order(session: Session, build_id: int) -> tuple[int, ...]:
    return tuple(surface.id for surface in store.list_surfaces(session, build_id))


def _put_in_order(session: Session, build_id: int, moved: int, before: Sequence[int], order: Sequence[int]) -> None:
    was, now = before.index(moved) + 1, order.index(moved) + 1
    if was == now:
        return
    for position, surface_id in enumerate(order, 1):
        row = session.get_one(Surface, surface_id)
        row.position = position
        session.add(row)
    note_change(session, build_id, "surface", moved, "place on the round", was, now)
