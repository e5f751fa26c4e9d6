"""On which lot a build stands."""

from sqlmodel import Session, col, select

from webapp.plan.models import Build, Lot


def lot_of(session: Session, lot_id: int | None, new_name: str = "") -> int | None:
    """The lot chosen, or one of that name; made where there is none. None for no lot."""
    if not new_name:
        return lot_id
    for lot in session.exec(select(Lot).order_by(col(Lot.id))):
        if lot.name.casefold() == new_name.casefold():
            return lot.row_id
    lot = Lot(name=new_name)
    session.add(lot)
    session.flush()
    return lot.row_id


def put_on_lot(session: Session, build_id: int, lot_id: int | None, new_name: str = "") -> None:
    """A build moves to another lot, or to none; permits and clocks stay its own."""
    build = session.get_one(Build, build_id)
    build.lot_id = lot_of(session, lot_id, new_name)
    session.add(build)
