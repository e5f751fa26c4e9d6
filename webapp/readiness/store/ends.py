"""What a typed need may speak of in one build, and what each is called."""

from dataclasses import dataclass

from webapp.plan.rules.ends import NAMELESS, end_key, kind_of, number_of
from webapp.plan.rules.kinds import NeedKind
from webapp.readiness.rules import keys
from webapp.readiness.store.site import Site
from webapp.values.own_words import own


@dataclass(frozen=True, slots=True)
class Group:
    """Some choices of one kind under their heading: value and words."""

    label: str
    options: tuple[tuple[str, str], ...]


def ends_of(found: Site) -> tuple[Group, ...]:
    """All that a task can wait for besides tasks, by the key of that end; empty groups are left out."""
    record, network = found.record, found.network
    visits = [
        key
        for one in record.inspections
        for key in (
            *([keys.inspection(one.id, None)] if len(one.places) > 1 else []),
            *(keys.inspection(one.id, place) for place in one.places),
        )
    ]
    groups = (
        ("Visits", visits),
        (own("Permits"), [keys.permit(one.id) for one in record.permits]),
        ("Questions open", [keys.question(one.id) for one in record.questions if one.settled_on is None]),
        ("Shots owed", [keys.shot(one.id) for one in record.shots if not network.node(keys.shot(one.id)).settled]),
        ("Pictures of a surface", [end_key(NeedKind.PICTURES, place) for place in _pictured(found)]),
    )
    return tuple(
        Group(label, tuple((key, end_name(found, key) + _settled(found, key)) for key in group))
        for label, group in groups
        if group
    )


def _pictured(found: Site) -> tuple[int, ...]:
    with_slots = {slot.surface_id for slot in found.record.slots}
    return tuple(surface.id for surface in found.record.surfaces if surface.id in with_slots)


def _settled(found: Site, key: str) -> str:
    return " (settled)" if key in found.network and found.network.node(key).settled else ""


def end_name(found: Site, key: str) -> str:
    """ "Rough electrical, W", "Pictures of the west wall"; what is not there any more by its kind alone."""
    record, kind, number = found.record, kind_of(key), number_of(key)
    if kind == NeedKind.PICTURES and number in record.surface:
        name = record.surface[number].name
        return f"Pictures of the {name[:1].lower()}{name[1:]}"
    if key in found.network:
        return found.network.node(key).title
    if kind == NeedKind.INSPECTION:
        place = int(key.partition("@")[2] or 0)
        where = record.surface[place].code if place in record.surface else "every surface"
        return next((f"{one.name}, {where}" for one in record.inspections if one.id == number), NAMELESS[kind])
    name = NAMELESS[kind]
    return f"{name[:1].upper()}{name[1:]} that is not there any more"
