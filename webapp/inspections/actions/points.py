"""Points to look over: ticked, put on the list, said otherwise, taken off with a reason. The lines stay."""

from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.core import clock
from webapp.inspections.actions.lists import asked_item_done, drop_asked_item
from webapp.inspections.models import CheckPoint, CheckTick
from webapp.inspections.rules.kinds import CheckState, CheckUse
from webapp.inspections.store.points import list_points
from webapp.values.errors import NotFound


@dataclass(frozen=True, slots=True)
class NewPoint:
    """`trade` is empty for any visit; `inspection_id`: only before that inspection."""

    use: CheckUse
    words: str
    source: str
    trade: str = ""
    inspection_id: int | None = None
    asked_id: int | None = None


@dataclass(frozen=True, slots=True)
class Tick:
    """What was seen of one point: of one that is on the list, or of one that is only offered by now."""

    point_id: int | None
    new: NewPoint | None
    state: CheckState
    note: str = ""


def add_point(session: Session, build_id: int, new: NewPoint) -> CheckPoint:
    """Last on its list."""
    last = max((one.position for one in list_points(session, build_id)), default=0)
    point = CheckPoint(
        build_id=build_id,
        use=new.use.value,
        trade=new.trade,
        inspection_id=new.inspection_id,
        asked_id=new.asked_id,
        position=last + 1,
        words=new.words,
        source=new.source,
    )
    session.add(point)
    session.flush()
    return point


def _row(session: Session, build_id: int, point_id: int) -> CheckPoint:
    point = session.get(CheckPoint, point_id)
    if point is None or point.build_id != build_id:
        raise NotFound("There is no such point on a list here.")
    return point


def end_point(session: Session, build_id: int, point_id: int, why: str, on: date) -> CheckPoint:
    """Off the list; that it was there, and why not any more, stays."""
    point = _row(session, build_id, point_id)
    point.ended_on, point.ended_why = on, why
    session.flush()
    return point


def reword_point(session: Session, build_id: int, point_id: int, words: str, on: date) -> CheckPoint:
    """Said otherwise: the old line ends, so that what was ticked stays with the words it was ticked under."""
    old = end_point(session, build_id, point_id, "said otherwise", on)
    new = NewPoint(CheckUse(old.use), words, old.source, old.trade, old.inspection_id, old.asked_id)
    made = add_point(session, build_id, new)
    made.position = old.position
    session.flush()
    return made


def keep_ticks(
    session: Session,
    build_id: int,
    inspection_id: int,
    ticks: tuple[Tick, ...],
    on: date,
    visit_id: int | None = None,
    surface_id: int | None = None,
) -> int:
    """Write down what was seen; what an inspector asked for is ready by that, or not wanted. Returns how many."""
    for each in ticks:
        number = each.point_id if each.new is None else add_point(session, build_id, each.new).row_id
        point = _row(session, build_id, number or 0)
        tick = CheckTick(
            point_id=point.row_id,
            inspection_id=inspection_id,
            visit_id=visit_id,
            surface_id=surface_id,
            state=each.state.value,
            note=each.note,
            on_day=on,
            at=clock.now(),
        )
        session.add(tick)
        if point.asked_id is not None:
            asked_item_done(session, build_id, point.asked_id, on if each.state == CheckState.FINE else None)
            drop_asked_item(session, build_id, point.asked_id, on if each.state == CheckState.NOT_HERE else None)
    session.flush()
    return len(ticks)
