"""V3: the form of a change from what was approved: first where a thing goes, then what that touches."""

from collections.abc import Iterable
from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.inspections import store
from webapp.inspections.forms import Ground, Where
from webapp.inspections.pages.changes import Options, place_words
from webapp.inspections.store import Offer, Offered
from webapp.plan.guard import Here
from webapp.surfaces import store as surfaces
from webapp.surfaces.store import ItemFacts, SurfaceFacts
from webapp.values.dates import show_date
from webapp.values.length import field_length


@dataclass(frozen=True, slots=True)
class NewChangePage:
    """Of a thing that is moved first its new place is asked (`rest` is False), then what that touches."""

    sheet: Sheet
    heading: str
    lede: str
    rest: bool
    asks: bool
    """something approved is touched, so it is a change that somebody has to agree to"""
    form: FormState
    action: str
    back: str
    item: str
    places: tuple[tuple[str, str], ...]
    surfaces: Options
    reopen: Options
    shots: Options
    tasks: Options
    slots: Options


def read_ground(session: Session, here: Here) -> Ground:
    build_id = here.build.id
    return Ground(
        surfaces.list_surfaces(session, build_id),
        surfaces.list_openings(session, build_id),
        surfaces.list_items(session, build_id),
    )


def where_page(session: Session, here: Here, item: ItemFacts, form: FormState | None = None) -> NewChangePage:
    """Where does it go?"""
    walls = surfaces.list_surfaces(session, here.build.id)
    at = next(one for one in walls if one.id == item.surface_id)
    unit = here.build.unit
    state = FormState.of(
        to=at.code,
        x=field_length(item.x_nm, unit) if item.x_nm is not None else "",
        y=field_length(item.y_nm, unit) if item.y_nm is not None else "",
    )
    return NewChangePage(
        sheet=here.sheet("V3", "Changes", f"Move {item.label}"),
        heading=f"Move “{item.label}”",
        lede=f"It is on {at.name}, {place_words(item, unit)}. The old place stays on record with its pictures.",
        rest=False,
        asks=False,
        form=form or state,
        action=f"{here.base}/changes/new",
        back=f"{here.base}/surfaces/{at.code}/items/{item.id}",
        item=str(item.id),
        places=tuple((one.code, one.name) for one in walls),
        **_ticks(Offered(())),
    )


def moved_page(
    session: Session,
    here: Here,
    item: ItemFacts,
    where: Where,
    offered: Offered,
    where_typed: FormState,
    form: FormState | None = None,
) -> NewChangePage:
    """What the move touches, to be agreed to and seen again; or nothing, then it is simply moved."""
    names = {one.id: one for one in surfaces.list_surfaces(session, here.build.id)}
    old, new = names[item.surface_id], names[where.move.surface_id]
    asks = store.asks(session, here.build.id, where.move, offered, on_the_plan=where.approved)
    way = f"from {old.name} to {new.name}" if old.id != new.id else f"on {new.name}"
    state = FormState(
        {
            **where_typed.typed,
            "what": (f"{item.label} moved {way}",),
            "who": ("the authority",),
            "on": (show_date(here.today),),
            **{name: tuple(one.key for one in found if one.chosen) for name, found in _named(offered)},
        }
    )
    lede = (
        "Something that was approved is touched, or this was changed before. Until it is answered, both stay open."
        if asks
        else "Nothing on record was approved there, so it is simply moved. The old place stays on record."
    )
    return NewChangePage(
        sheet=here.sheet("V3", "Changes", f"Move {item.label}"),
        heading=f"“{item.label}” {way}",
        lede=lede if old.id != new.id or not asks else lede.replace("both stay", "the surface stays"),
        rest=True,
        asks=asks,
        form=form or state,
        action=f"{here.base}/changes",
        back=f"{here.base}/changes/new?item={item.id}",
        item=str(item.id),
        places=(),
        **_ticks(offered),
    )


def _named(offered: Offered) -> tuple[tuple[str, tuple[Offer, ...]], ...]:
    return (
        ("reopen", offered.reopen),
        ("shots", offered.shots),
        ("tasks", offered.tasks),
        ("slots", offered.slots),
    )


def _ticks(offered: Offered, walls: Iterable[SurfaceFacts] = ()) -> dict[str, Options]:
    ticks = {name: tuple((one.key, one.words, one.detail) for one in found) for name, found in _named(offered)}
    return ticks | {"surfaces": tuple((one.code, one.name, "") for one in walls)}


def any_page(session: Session, here: Here, form: FormState | None = None) -> NewChangePage:
    """A change that moves nothing on record: a different window."""
    walls = surfaces.list_surfaces(session, here.build.id)
    return NewChangePage(
        sheet=here.sheet("V3", "Changes", "A change from the approved plan"),
        heading="A change from the approved plan",
        lede="Write down what differs from what was approved. Its surfaces stay open until somebody has answered.",
        rest=True,
        asks=True,
        form=form or FormState.of(who="the authority", on=show_date(here.today)),
        action=f"{here.base}/changes",
        back=f"{here.base}/changes",
        item="",
        places=(),
        **_ticks(store.offered_for_any(session, here.build.id), walls),
    )
