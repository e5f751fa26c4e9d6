"""What is on record of a surface at one moment: who passed what, each picture, each offset. Frozen with a covering."""

from collections.abc import Iterator

from sqlmodel import Session

from webapp.photos.store import list_photos
from webapp.readiness.store.evidence import proofs
from webapp.readiness.store.site import Site
from webapp.surfaces import store as surfaces
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.owed import taken_day
from webapp.surfaces.rules.places import UP
from webapp.surfaces.store import ItemFacts, SurfaceFacts
from webapp.values.dates import show_date
from webapp.values.length import show_length

Line = tuple[str, str, str]
"""what, who said so, when: empty where nobody dated it"""


def on_hand(session: Session, site: Site, surface: SurfaceFacts) -> tuple[Line, ...]:
    seen = ((one.what, one.who, show_date(one.day) if one.day else "") for one in proofs(site, surface.id))
    return (*seen, *_pictures(session, site, surface), *_offsets(session, site, surface))


def _pictures(session: Session, site: Site, surface: SurfaceFacts) -> Iterator[Line]:
    """Each picture once, the first taken before all others."""
    shows = {slot.photo_id: slot.what for slot in site.record.slots if slot.photo_id is not None}
    placed = surfaces.places_on_surface(session, site.build.id, surface.id)
    found = list_photos(session, dict.fromkeys(place.photo_id for place in placed))
    for photo in sorted(found, key=lambda one: one.taken_at or "9"):
        day = taken_day(photo.taken_at)
        words = photo.caption or shows.get(photo.id, "") or photo.original_name or "without words"
        yield f"Picture: {words}", "my picture", show_date(day) if day else "date unknown"


def _offsets(session: Session, site: Site, surface: SurfaceFacts) -> Iterator[Line]:
    for item in surfaces.list_items(session, site.build.id):
        if item.surface_id == surface.id and item.replaced_on is None:
            yield f"{item.label}: {_where(item, surface, site.build.unit)}", "my offset", ""


def _where(item: ItemFacts, surface: SurfaceFacts, unit: str) -> str:
    corner = item.from_corner or surface.origin_corner or "the corner"
    up = UP[SurfaceKind(surface.kind)]
    parts = [f"{show_length(item.x_nm, unit)} from {corner}"] if item.x_nm is not None else []
    parts += [f"{show_length(item.y_nm, unit)} {up[:1].lower()}{up[1:]}"] if item.y_nm is not None else []
    return ", ".join(parts) or "not measured"
