"""The counts of a surface's boxes, and each box of its table with where it is found again."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.surfaces.rules.counting import Box, table_words
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.places import UP
from webapp.surfaces.rules.tagging import tags_of
from webapp.surfaces.store import ItemFacts, SurfaceFacts
from webapp.values.length import show_length


@dataclass(frozen=True, slots=True)
class BoxesPage:
    """`counted`: a count is on record, so that a change of it needs a reason. `covered`: which count is due now."""

    sheet: Sheet
    form: FormState
    surface: str
    action: str
    back: str
    counted: bool
    covered: bool
    differs: str
    boxes: tuple[tuple[str, str, str], ...]


def boxes_of(session: Session, here: Here, surface: SurfaceFacts) -> tuple[Box, ...]:
    """What the table holds now, from the corner on."""
    items = tuple(one for one in store.list_items(session, here.build.id) if one.surface_id == surface.id)
    tags = tags_of(items)
    return tuple(
        Box(one.id, f"{tags.get(one.id, '')} {one.label}".strip(), _where(one, surface, here.build.unit))
        for one in items
        if one.is_box and one.replaced_on is None
    )


def _where(item: ItemFacts, surface: SurfaceFacts, unit: str) -> str:
    if item.typed_nm is None or item.y_nm is None:
        return "not measured"
    corner = item.from_corner or surface.origin_corner or "the corner"
    up = UP[SurfaceKind(surface.kind)]
    return f"{show_length(item.typed_nm, unit)} from {corner}, {show_length(item.y_nm, unit)} {up[:1].lower()}{up[1:]}"


def boxes_page(session: Session, here: Here, code: str, form: FormState | None = None) -> BoxesPage:
    surface = store.get_surface(session, here.build.id, code)
    counts = (("before", surface.boxes_before), ("after", surface.boxes_after))
    shown = {name: str(count) for name, count in counts if count is not None}
    boxes = boxes_of(session, here, surface)
    back = f"{here.base}/surfaces/{surface.code}"
    return BoxesPage(
        sheet=here.sheet(f"W1-{surface.code}", surface.name),
        form=form or FormState.of(**shown),
        surface=surface.name,
        action=f"{back}/boxes",
        back=back,
        counted=bool(shown),
        covered=surface.covered_on is not None,
        differs=table_words(surface.boxes_before, len(boxes)),
        boxes=tuple((str(box.id), box.named, box.where) for box in boxes),
    )
