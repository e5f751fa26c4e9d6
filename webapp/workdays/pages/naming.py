"""Where a voice note can belong: surfaces, workdays, visits."""

from sqlmodel import Session

from webapp.inspections.pages.naming import name_things
from webapp.plan.guard import Here
from webapp.values.dates import show_day
from webapp.voice.rules.places import PlaceKind, Spot
from webapp.workdays.store import list_days_named


def name_spots(session: Session, here: Here) -> tuple[Spot, ...]:
    """Surfaces in the order of the round, the latest workdays and visits first."""
    things = name_things(session, here)
    named = {kind: [one for one in things if one.kind == kind] for kind in (PlaceKind.SURFACE, PlaceKind.VISIT)}
    surfaces, visits = (
        [Spot(one.kind, one.id, one.name, one.label, one.href) for one in found] for found in named.values()
    )
    days = [
        Spot(PlaceKind.WORKDAY, day_id, str(day_id), show_day(day, here.today), f"{here.base}/workdays/{day_id}")
        for day_id, day in list_days_named(session, here.build.id)
    ]
    return (*surfaces, *days, *reversed(visits))
