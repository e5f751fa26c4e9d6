"""Where pictures belong, and which owed picture each one fills."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import BinaryIO

from sqlmodel import Session

from webapp.core import clock
from webapp.photos.actions import KeptPhoto, keep_photo, note_place
from webapp.surfaces import store
from webapp.surfaces.actions.making import note_change
from webapp.surfaces.models import PicturePlace, PictureSlot, Surface
from webapp.values.errors import BadInput, NotFound, RuleBroken
from webapp.values.verdict import Reason, Verdict


def place_picture(
    session: Session,
    build_id: int,
    photo_id: int,
    surface_id: int | None,
    item_id: int | None = None,
    slot_id: int | None = None,
    stage: str = "general",
) -> None:
    """Say where a picture belongs. Saying the same again changes nothing, so a picture sent twice counts once.

    With no surface it only belongs to the build. Raises NotFound for a place that is not in this build.
    """
    if item_id is not None:
        item = store.get_item(session, build_id, item_id)
        if item.surface_id != surface_id:
            raise NotFound("That thing is hidden in another surface.")
    if surface_id is not None:
        store.surface_by_id(session, build_id, surface_id)
    if slot_id is not None:
        slot = store.get_slot(session, build_id, slot_id)
        if slot.surface_id != surface_id:
            raise NotFound("That picture is owed of another surface.")
        fill_slot(session, slot_id, photo_id)
        if item_id is None:
            return  # filling has placed it, at the thing of the slot where it has one
    _place(session, build_id, photo_id, surface_id, item_id, stage)


def _place(
    session: Session, build_id: int, photo_id: int, surface_id: int | None, item_id: int | None, stage: str
) -> None:
    session.flush()
    there = store.places_of_photos(session, build_id, (photo_id,))
    if surface_id is None and there:
        return
    if any((place.surface_id, place.item_id) == (surface_id, item_id) for place in there):
        return
    nowhere = next((place for place in there if place.surface_id is None), None)
    if nowhere is not None:  # it was in the build without a place; now it has one
        row = session.get_one(PicturePlace, nowhere.id)
        row.surface_id, row.item_id, row.stage = surface_id, item_id, stage
    else:
        row = PicturePlace(
            build_id=build_id,
            photo_id=photo_id,
            surface_id=surface_id,
            item_id=item_id,
            stage=stage,
            placed_at=clock.now(),
        )
    session.add(row)


def fill_slot(session: Session, slot_id: int, photo_id: int) -> None:
    """Fill an owed picture. Whether that settles it hangs on the picture's date; what filled it before stays readable.

    One picture may fill several slots.
    """
    slot = session.get(PictureSlot, slot_id)
    if slot is None:
        raise NotFound("There is no such owed picture in this build.")
    surface = session.get_one(Surface, slot.surface_id)
    if slot.photo_id == photo_id:
        _place(session, surface.build_id, photo_id, surface.row_id, slot.item_id, slot.picture_set)
        return
    if slot.photo_id is not None:
        note_change(session, surface.build_id, "slot", slot_id, "photo", slot.photo_id, photo_id)
    slot.photo_id, slot.filled_at = photo_id, clock.now()
    session.add(slot)
    _place(session, surface.build_id, photo_id, surface.row_id, slot.item_id, slot.picture_set)


def empty_slot(session: Session, slot_id: int) -> None:
    """The picture does not show it after all: the slot is owed again."""
    slot = session.get(PictureSlot, slot_id)
    if slot is None:
        raise NotFound("There is no such owed picture in this build.")
    if slot.photo_id is not None:
        surface = session.get_one(Surface, slot.surface_id)
        note_change(session, surface.build_id, "slot", slot_id, "photo", slot.photo_id, None)
        slot.photo_id = slot.filled_at = None
        session.add(slot)


def take_out(session: Session, build_id: int, photo_id: int, place_id: int) -> str:
    """A picture is not of that place after all; gives the place's name. What it filled there comes out by `empty_slot`.

    Raises RuleBroken while it fills something owed there, NotFound for a place that is not its own.
    """
    there = {place.id: place for place in store.places_of_photos(session, build_id, (photo_id,))}
    place = there.get(place_id)
    if place is None or place.surface_id is None:
        raise NotFound("This picture is not placed there.")
    surface = store.surface_by_id(session, build_id, place.surface_id)
    fills = [
        slot
        for slot in store.list_slots(session, build_id)
        if slot.photo_id == photo_id and slot.surface_id == place.surface_id
    ]
    if fills:
        reasons = tuple(Reason(f"It fills the owed picture {slot.number} there: {slot.what}") for slot in fills)
        raise RuleBroken(Verdict(reasons), heading="Still owed by it")
    note_place(session, photo_id, surface.name)
    row = session.get_one(PicturePlace, place.id)
    if len(there) > 1:
        session.delete(row)
    else:  # it stays a picture of this build
        row.surface_id = row.item_id = row.x_nm = row.y_nm = None
    return surface.name


@dataclass(frozen=True, slots=True)
class Staged:
    """How many pictures were said to be of a stage. `nowhere`: of no surface; `held`: they fill one of another."""

    said: int
    nowhere: int
    held: int


def say_stage(session: Session, build_id: int, photo_ids: Iterable[int], stage: str) -> Staged:
    """Say of pictures that they show a surface before or after its insulation, or neither (`general`)."""
    wanted = tuple(dict.fromkeys(photo_ids))
    places = store.places_of_photos(session, build_id, wanted)
    others = {
        (slot.photo_id, slot.surface_id)
        for slot in store.list_slots(session, build_id)
        if slot.photo_id in wanted and slot.picture_set not in {stage, "general"}
    }
    on = [place for place in places if place.surface_id is not None]
    free = [place for place in on if (place.photo_id, place.surface_id) not in others]
    for place in free:
        row = session.get_one(PicturePlace, place.id)
        row.stage = stage
        session.add(row)
    somewhere, said = {place.photo_id for place in on}, {place.photo_id for place in free}
    return Staged(len(said), len(set(wanted) - somewhere), len(somewhere - said))


def pin_picture(session: Session, build_id: int, photo_id: int, surface_id: int, at: tuple[int, int] | None) -> None:
    """Pin a picture to the drawing of a surface it belongs to, or take its pin off. Raises NotFound for another."""
    own = [one for one in store.places_of_photos(session, build_id, (photo_id,)) if one.surface_id == surface_id]
    if not own:
        raise NotFound("This picture is not of that surface.")
    for number, place in enumerate(own):
        row = session.get_one(PicturePlace, place.id)
        row.x_nm, row.y_nm = at if at is not None and number == 0 else (None, None)
        session.add(row)


@dataclass(frozen=True, slots=True)
class TakenIn:
    """What became of sent files: pictures that are kept now, and a sentence for each file that is none."""

    kept: tuple[KeptPhoto, ...]
    refused: tuple[str, ...]


def take_in(
    session: Session,
    build_id: int,
    photos_dir: Path,
    sent: Iterable[tuple[BinaryIO, str]],
    limit_mb: int,
    received_at: datetime,
) -> TakenIn:
    """Keep the sent files that are pictures and put them into the build. One that is none takes no other with it."""
    kept: dict[int, KeptPhoto] = {}
    refused = []
    for file, name in sent:
        try:
            photo = keep_photo(session, photos_dir, file, name, limit_mb, received_at)
        except BadInput as bad:
            refused.append(bad.sentence)
            continue
        place_picture(session, build_id, photo.photo_id, None)
        kept.setdefault(photo.photo_id, photo)
    return TakenIn(tuple(kept.values()), tuple(refused))
