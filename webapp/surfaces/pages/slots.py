"""What to photograph of a surface: what it asks for by what is on it, held against its list."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.surfaces.rules.corners import ENDS
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.offers import Offers, compare
from webapp.surfaces.rules.slots import owed_pictures, set_words
from webapp.surfaces.rules.stretches import stretches
from webapp.surfaces.rules.tagging import tags_of
from webapp.surfaces.rules.wanted import WISH, Hidden, OnSurface
from webapp.surfaces.store import SurfaceFacts
from webapp.values.words import join_words, plural

NAMED = 4
"""how many of what could be owed the surface's own sheet names"""


@dataclass(frozen=True, slots=True)
class OfferLine:
    """`wanted`, `wish`: how its ticks stand; `note`: which line of the builder's own seems to show it already."""

    key: str
    tag: str
    what: str
    wanted: bool
    wish: bool
    note: str


@dataclass(frozen=True, slots=True)
class OfferGroup:
    """`shown`: lines that the builder's own list seems to show already."""

    heading: str
    lines: tuple[OfferLine, ...]
    shown: tuple[OfferLine, ...]


@dataclass(frozen=True, slots=True)
class DeclinedLine:
    key: str
    what: str
    note: str


@dataclass(frozen=True, slots=True)
class SlotsPage:
    sheet: Sheet
    surface: str
    noun: str
    covered: bool
    form: FormState
    groups: tuple[OfferGroup, ...]
    declined: tuple[DeclinedLine, ...]
    listed: str
    overlap: bool
    action: str
    back: str


def on_surface(session: Session, here: Here, surface: SurfaceFacts) -> OnSurface:
    """All that is on a surface now, as its pictures are asked for by it."""
    build_id = here.build.id
    items = [one for one in store.list_items(session, build_id) if one.surface_id == surface.id]
    runs = [one for one in store.list_runs(session, build_id) if one.surface_id == surface.id and not one.replaced_on]
    kinds = {line.id: line.kind for line in store.list_lines(session, build_id)}
    tags = tags_of(items)
    left, right = ENDS.get(surface.facing, ("", ""))
    openings = [one for one in store.openings_of(session, build_id, surface.id) if one.removed_on is None]
    ties = [one for one in store.list_ties(session, build_id) if one.surface_id == surface.id and not one.removed_on]
    return OnSurface(
        kind=SurfaceKind(surface.kind),
        length_nm=surface.length_nm,
        unit=here.build.unit,
        origin=surface.origin_corner,
        far=surface.far_corner or {left: right, right: left}.get(surface.origin_corner.upper(), ""),
        things=tuple(
            Hidden(one.id, tags.get(one.id, ""), one.label, one.kind, one.service, one.is_box, one.x_nm)
            for one in items
            if one.replaced_on is None
        ),
        services=frozenset(run.service for run in runs),
        lines=frozenset(kinds[run.line_id] for run in runs if run.line_id in kinds),
        openings=tuple((one.id, one.kind, one.name) for one in openings),
        ties=tuple((one.id, one.name, one.from_a, one.from_b) for one in ties),
    )


def offers_of(session: Session, here: Here, surface: SurfaceFacts) -> Offers:
    """What it asks for and what was made of that."""
    slots = [slot for slot in store.list_slots(session, here.build.id) if slot.surface_id == surface.id]
    ended = [slot for slot in store.list_slots_before(session, here.build.id) if slot.surface_id == surface.id]
    return compare(owed_pictures(on_surface(session, here, surface)), slots, ended)


def more_words(session: Session, here: Here, surface: SurfaceFacts) -> str:
    """ "3 more pictures could be owed: E7, water runs and BL2." Empty where none could, or it is closed."""
    if surface.covered_on is not None:
        return ""
    missing = offers_of(session, here, surface).missing
    if not missing:
        return ""
    named = [picture.named for picture in missing[:NAMED]]
    if len(missing) > NAMED:
        named.append(f"{len(missing) - NAMED} more")
    more = "more " if any(slot.surface_id == surface.id for slot in store.list_slots(session, here.build.id)) else ""
    return f"{plural(len(missing), f'{more}picture')} could be owed: {join_words(named)}."


def slots_page(session: Session, here: Here, code: str, form: FormState | None = None) -> SlotsPage:
    surface = store.get_surface(session, here.build.id, code)
    on, offers = on_surface(session, here, surface), offers_of(session, here, surface)
    back = f"{here.base}/surfaces/{surface.code}"
    listed = sum(slot.surface_id == surface.id for slot in store.list_slots(session, here.build.id))
    return SlotsPage(
        sheet=here.sheet(f"W1-{surface.code}", surface.name, "What to photograph"),
        surface=surface.name,
        noun=on.kind.value,
        covered=surface.covered_on is not None,
        form=form or FormState(),
        groups=_groups(surface, on, offers, form),
        declined=_declined(session, here, surface, offers),
        listed=f"{plural(listed, 'picture')} on the list" if listed else "",
        overlap=bool(stretches(on.kind, on.length_nm, on.unit, on.origin, on.far)),
        action=f"{back}/slots/these",
        back=back,
    )


def _groups(surface: SurfaceFacts, on: OnSurface, offers: Offers, form: FormState | None) -> tuple[OfferGroup, ...]:
    tags = {thing.id: thing.tag for thing in on.things}
    groups: dict[str, list[OfferLine]] = {}
    for offer in offers.open:
        picture = offer.picture
        wanted, wish = not offer.shown_by, picture.strength == WISH
        if form is not None:
            wanted, wish = form.has("take", picture.key), form.has("wish", picture.key)
        note = f"Your picture {offer.shown_by} seems to show it: “{offer.its_words}”" if offer.shown_by else ""
        line = OfferLine(picture.key, tags.get(picture.item_id or 0, ""), picture.what, wanted, wish, note)
        groups.setdefault(set_words(surface.kind, picture.picture_set), []).append(line)
    return tuple(
        OfferGroup(
            f"{words[:1].upper()}{words[1:]}",
            tuple(line for line in lines if not line.note),
            tuple(line for line in lines if line.note),
        )
        for words, lines in groups.items()
    )


def _declined(session: Session, here: Here, surface: SurfaceFacts, offers: Offers) -> tuple[DeclinedLine, ...]:
    if not offers.declined:
        return ()
    slots = {slot.made_from: slot.id for slot in store.list_slots_before(session, here.build.id) if _of(slot, surface)}
    shown = {
        change.what_id: change.became
        for change in store.list_changes(session, here.build.id)
        if change.what_kind == "slot" and change.field == "shown by"
    }
    return tuple(
        DeclinedLine(
            picture.key,
            picture.what,
            f"Your {shown[slots[picture.key]]} shows it." if slots.get(picture.key) in shown else "Not wanted.",
        )
        for picture in offers.declined
    )


def _of(slot: store.SlotFacts, surface: SurfaceFacts) -> bool:
    return slot.surface_id == surface.id
