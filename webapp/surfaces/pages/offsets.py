"""Where a hidden thing is, in words, and what it is called in the drawings."""

from collections.abc import Iterable, Mapping

from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.places import UP
from webapp.surfaces.rules.tagging import things_of
from webapp.surfaces.store import ItemFacts, SurfaceFacts
from webapp.values.length import show_length


def where_is(item: ItemFacts, surface: SurfaceFacts, unit: str) -> str:
    """`East wall, 1′ 8½″ from NE, 5′ above the finished floor`; what was not measured is left out."""
    parts = [surface.name]
    if item.x_nm is not None:
        parts.append(f"{show_length(item.x_nm, unit)} from {item.from_corner or surface.origin_corner or 'the corner'}")
    if item.y_nm is not None:
        parts.append(f"{show_length(item.y_nm, unit)} {up_words(surface)}")
    return ", ".join(parts)


def up_words(surface: SurfaceFacts) -> str:
    """What the second offset is measured along, within a sentence."""
    words = UP[SurfaceKind(surface.kind)]
    return words[:1].lower() + words[1:]


def tags_of(items: Iterable[ItemFacts]) -> Mapping[int, str]:
    """The short name of each thing in the drawing of its surface, by its id."""
    by_surface: dict[int, list[ItemFacts]] = {}
    for item in items:
        by_surface.setdefault(item.surface_id, []).append(item)
    return {thing.id: thing.tag for on_one in by_surface.values() for thing in things_of(on_one)}
