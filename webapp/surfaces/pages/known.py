"""What is known of a whole surface years later: where no screw should go, where one may, what closed it, what is not
known. Shared by sheet W3 and by the printed sheet."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from sqlmodel import Session

from webapp.photos.store import list_photos
from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.surfaces.rules.bands import BandGroup, box_words
from webapp.surfaces.rules.corners import is_known
from webapp.surfaces.rules.elevation import Facts
from webapp.surfaces.rules.face import Face
from webapp.surfaces.rules.fixing import fixings
from webapp.surfaces.store import CoverFacts, SurfaceFacts
from webapp.values.dates import show_day
from webapp.values.length import show_length
from webapp.values.words import join_words, plural


@dataclass(frozen=True, slots=True)
class Known:
    """A line of a list: bold words, the sentence below them, where it leads."""

    title: str
    detail: str
    href: str = ""


@dataclass(frozen=True, slots=True)
class BandLine:
    """All strips of one circuit, line or thing; `usual` is empty or says that it lies where nobody looks for it."""

    name: str
    places: tuple[str, ...]
    usual: str
    plates: str


def band_lines(face: Face, groups: Iterable[BandGroup]) -> tuple[BandLine, ...]:
    return tuple(
        BandLine(
            name=group.name,
            places=tuple(box_words(face, box) for box in group.boxes),
            usual="" if group.usual else "Off the usual ways",
            plates=_plates(group, face.unit),
        )
        for group in groups
    )


def _plates(group: BandGroup, unit: str) -> str:
    at = [show_length(plate.x_nm, unit) for plate in group.plates]
    return f"{plural(len(at), 'steel plate')} on record at {join_words(at)}; the band goes on." if at else ""


def fixing_lines(facts: Facts, notes: dict[int, str]) -> tuple[Known, ...]:
    """Where something may be fixed; `notes` say by the id of the blocking what it is for."""
    return tuple(
        Known(f"{one.where[:1].upper()}{one.where[1:]}", _what_for(one.thing.label, notes.get(one.thing.id, "")))
        for one in fixings(facts)
    )


def _what_for(label: str, note: str) -> str:
    return f"{label}: {note}" if note else label


def closed_lines(session: Session, here: Here, surface: SurfaceFacts) -> tuple[Known, ...]:
    """Which layers closed it and when, the latest first; what was opened up again stays with its day."""
    found = [cover for cover in store.list_covers(session, here.build.id) if cover.surface_id == surface.id]
    return tuple(_closed(cover, here) for cover in found)


def _closed(cover: CoverFacts, here: Here) -> Known:
    part = f", {cover.extent}" if cover.extent else ""
    title = f"Closed {show_day(cover.covered_on, here.today)} by {cover.who}{part}"
    opened = ""
    if cover.opened_on is not None:
        opened = f" Opened up {show_day(cover.opened_on, here.today)}: {cover.opened_why}"
    mistake = ""
    if cover.not_cleared:
        mistake = f" Covered by mistake, still owed then: {'; '.join(what for what, _ in cover.not_cleared)}."
    return Known(title, f"{cover.layers or 'With what is not on record'}.{mistake}{opened}")


def gap_lines(session: Session, here: Here, surface: SurfaceFacts, photo_ids: Sequence[int]) -> tuple[Known, ...]:
    """What is not known, said plainly; `photo_ids` of all pictures of the surface."""
    href = f"{here.base}/surfaces/{surface.code}"
    found = [*_unmeasured(session, here, surface, href), *_questions(session, here, surface)]
    found += [
        Known(f"Let go: {line.what}", f"{show_day(line.on_day, here.today)}, {line.who}: {line.why}")
        for line in store.list_lifted(session, here.build.id)
        if line.surface_id == surface.id
    ]
    found += _pictures(session, here, surface, photo_ids, href)
    counts = (surface.boxes_before, surface.boxes_after)
    if None not in counts and counts[0] != counts[1]:
        found.append(Known("The counts of boxes differ", f"{counts[0]} before it was closed, {counts[1]} after."))
    found.append(
        Known("How deep it lies", "Offsets are along the surface and across it. Nothing says how far behind its face.")
    )
    return tuple(found)


def _unmeasured(session: Session, here: Here, surface: SurfaceFacts, href: str) -> list[Known]:
    own = [
        item
        for item in store.list_items(session, here.build.id)
        if item.surface_id == surface.id and item.replaced_on is None
    ]
    loose = [item.label for item in own if item.x_nm is None or item.y_nm is None]
    other = [item.label for item in own if item.x_nm is not None and not is_known(surface, item.from_corner)]
    found = []
    if loose:
        have = "has" if len(loose) == 1 else "have"
        found.append(Known(f"{plural(len(loose), 'thing')} here {have} no offsets", f"{join_words(loose)}.", href))
    if other:
        were = "was" if len(other) == 1 else "were"
        title = f"{plural(len(other), 'thing')} {were} measured from a corner that {surface.name} does not have"
        found.append(Known(title, f"{join_words(other)}: they may lie elsewhere than drawn.", href))
    return found


def _questions(session: Session, here: Here, surface: SurfaceFacts) -> list[Known]:
    return [
        Known(f"Open question: {one.words}", f"Asked {show_day(one.asked_on, here.today)} by {one.asked_by}.", here_to)
        for one in store.list_questions(session, here.build.id)
        if one.surface_id == surface.id and one.settled_on is None
        for here_to in (f"{here.base}/questions/{one.id}",)
    ]


def _pictures(session: Session, here: Here, surface: SurfaceFacts, photo_ids: Sequence[int], href: str) -> list[Known]:
    found = []
    undated = sum(photo.taken_at is None for photo in list_photos(session, photo_ids))
    if undated:
        have, they = ("has", "it does") if undated == 1 else ("have", "they do")
        title = f"{plural(undated, 'picture')} {have} no date"
        found.append(Known(title, f"By itself {they} not show what was there before it was closed."))
    owed = [
        slot.what
        for slot in store.list_slots(session, here.build.id)
        if slot.surface_id == surface.id and slot.photo_id is None
    ]
    if owed:
        when = "were never taken" if surface.covered_on else "are still owed"
        one = "was never taken" if surface.covered_on else "is still owed"
        title = f"{plural(len(owed), 'picture')} {one if len(owed) == 1 else when}"
        found.append(Known(title, f"{'; '.join(owed)}.", f"{href}#owed"))
    return found
