"""A visit moved or called off, and in the same save what hangs on it: moved too, flagged, or left where it is."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from sqlmodel import Session

from webapp.inspections import actions as inspections
from webapp.inspections.forms.booking import Booking
from webapp.inspections.store import get_visit
from webapp.plan.actions.booked import move_booked, set_booked_state
from webapp.plan.rules.kinds import BookedState
from webapp.plan.store.booked import BookedFacts
from webapp.readiness.store.site import Site
from webapp.values.dates import show_long_day


class Fate(StrEnum):
    """What becomes of a thing that hangs on a visit."""

    MOVE = "move"
    FLAG = "flag"
    STAY = "stay"
    OFF = "off"


@dataclass(frozen=True, slots=True)
class Decision:
    """`day`: the new one where it is moved too."""

    booked: BookedFacts
    fate: Fate
    day: date | None = None


def same_shift(booked: date | None, before: date | None, after: date | None) -> date | None:
    """The booked day moved by as many days as the visit; None where one of the days is not known."""
    if booked is None or before is None or after is None:
        return None
    return booked + timedelta(days=(after - before).days)


def move_visit(
    session: Session, found: Site, visit_id: int, new: Booking, decisions: Sequence[Decision], why: str
) -> None:
    """Move the visit and do with each thing that hangs on it what was decided. No fee comes of it."""
    build = found.build
    more: dict[str, str | bool] = {"who_there": new.who_there, "asked_how": new.asked_how, "remote": new.remote}
    inspections.move_visit(session, build.id, visit_id, new.day, new.asked_on, new.window, why, build.base, **more)
    to = f" to {show_long_day(new.day)}" if new.day else ""
    _carry_out(session, found, decisions, _because(f"The visit was moved{to}", why))


def cancel_visit(session: Session, found: Site, visit_id: int, decisions: Sequence[Decision], why: str) -> None:
    """Call the visit off and do with each thing that hangs on it what was decided."""
    get_visit(session, found.build.id, visit_id)
    inspections.cancel_visit(session, found.build.id, visit_id, why)
    _carry_out(session, found, decisions, _because("The visit was called off", why))


def _because(what: str, why: str) -> str:
    return f"{what}: {why}" if why else what


def _carry_out(session: Session, found: Site, decisions: Sequence[Decision], why: str) -> None:
    build_id = found.build.id
    for each in decisions:
        if each.fate == Fate.MOVE and each.day is not None:
            move_booked(session, build_id, each.booked.id, each.day, why)
        elif each.fate == Fate.FLAG:
            set_booked_state(session, build_id, each.booked.id, BookedState.TO_MOVE, why)
        elif each.fate == Fate.OFF:
            set_booked_state(session, build_id, each.booked.id, BookedState.CALLED_OFF, why)
