"""Where a hidden thing is, in words, and what it is called in the drawings."""

from collections.abc import Iterable, Mapping

from webapp.plan.guard import Here
from webapp.surfaces.rules import tagging
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.places import UP
from webapp.surfaces.store import ItemFacts, RunFacts, SurfaceFacts
from webapp.values.length import show_length
from webapp.values.verdict import Way

FROM_PICTURE = "from the picture, not measured"


def where_is(item: ItemFacts, surface: SurfaceFacts, unit: str) -> str:
    """`East wall, 1′ 8½″ from NE, 5′ above the finished floor`; what was not measured is left out."""
    parts = [surface.name]
    if item.typed_nm is not None:
        corner = item.from_corner or surface.origin_corner or "the corner"
        parts.append(f"{show_length(item.typed_nm, unit)} from {corner}")
    if item.y_nm is not None:
        parts.append(f"{show_length(item.y_nm, unit)} {up_words(surface)}")
    if item.from_picture:
        parts.append(FROM_PICTURE)
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
    return {number: tag for on_one in by_surface.values() for number, tag in tagging.tags_of(on_one).items()}


def lines_at(here: Here, items: Iterable[ItemFacts], runs: Iterable[RunFacts]) -> Mapping[int, tuple[Way, ...]]:
    """Ways to the lines that each thing is on, by its id: its own first, then those whose runs begin or end at it."""
    own = {item.id: item.line for item in items}
    ended: dict[int, set[str]] = {}
    for run in runs:
        for item_id in (run.from_item_id, run.to_item_id):
            if item_id is not None and run.line and run.replaced_on is None:
                ended.setdefault(item_id, set()).add(run.line)
    return {
        number: tuple(
            Way(code, f"{here.base}/services/{code}")
            for code in dict.fromkeys((code, *sorted(ended.get(number, ()))))
            if code
        )
        for number, code in own.items()
    }
