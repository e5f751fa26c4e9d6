"""One picture big: what it shows, where it belongs, when it was taken, what was put right."""

from collections.abc import Iterable
from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.photos.pages import Picture, picture, show_taken
from webapp.photos.store import PhotoFacts, get_photo, list_changes, list_photos
from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.surfaces.pages.choosing import Choice, Places, item_choices, places_of, slot_choices
from webapp.surfaces.pages.pins import PinForm, pin_forms
from webapp.surfaces.pages.shows import SayDay, Shows, filled_before, say_day, shows_of
from webapp.surfaces.pages.superseded import before_words
from webapp.surfaces.store import PlaceFacts, list_superseded
from webapp.values.dates import show_moment
from webapp.values.errors import NotFound


@dataclass(frozen=True, slots=True)
class PlaceRow:
    id: int
    name: str
    href: str


@dataclass(frozen=True, slots=True)
class PicturePage:
    """One picture: where it belongs, when it was taken, when it came, what was put right."""

    sheet: Sheet
    picture: Picture
    superseded: str
    caption: str
    facts: tuple[tuple[str, str], ...]
    unknown: bool
    broken: bool
    places: tuple[PlaceRow, ...]
    fills: tuple[tuple[str, str], ...]
    changes: tuple[tuple[str, str, str], ...]
    """what was said before, when it was put right, and where all that was put right with it is"""
    date_form: FormState
    caption_form: FormState
    place_form: FormState
    errors: FormState
    surfaces: tuple[Choice, ...]
    slots: tuple[Choice, ...]
    items: tuple[Choice, ...]
    href: str
    original: str
    back: str
    say: SayDay | None
    shows: Shows
    filled_before: tuple[str, ...]
    pins: tuple[PinForm, ...]
    """the surfaces it is of, drawn, to be pinned to"""
    alike: tuple[Picture, ...]
    """perhaps a crop of it, or what it was cropped from: suggested, never merged"""


def picture_page(
    session: Session, here: Here, photo_id: int, which: str = "", form: FormState | None = None
) -> PicturePage:
    """`which` form (date, caption, place) is drawn again as `form`. Raises NotFound outside this build."""
    places = places_of(session, here, (photo_id,))
    past, own = list_superseded(session, here.build.id), places.places
    if not own:
        raise NotFound("There is no such picture in this build.")
    photo = get_photo(session, photo_id)
    day, _, time = (photo.taken_at or "").partition("T")
    forms = {
        "date": FormState.of(day=day, time="" if time == "00:00:00" else time[:5]),
        "caption": FormState.of(caption=photo.caption),
        "place": FormState.of(surface=places.code(own[0].surface_id or 0)),
    }
    if form is not None:
        forms[which] = form
    filled = tuple(slot for slot in places.slots if slot.photo_id == photo_id)
    names = ", ".join(name for name in dict.fromkeys(places.surface_name(p.surface_id) for p in own) if name)
    return PicturePage(
        sheet=here.sheet("W4", "Pictures", photo.caption or names or "Picture"),
        picture=picture(photo, names),
        superseded=f"It shows the state {before_words(past[photo_id])}." if photo_id in past else "",
        caption=photo.caption,
        facts=_facts(photo),
        unknown=photo.taken_at is None,
        broken=photo.made == "broken",
        places=_place_rows(own, places, here),
        fills=tuple((str(slot.id), f"{places.code(slot.surface_id)} {slot.number}: {slot.what}") for slot in filled),
        changes=_changes(session, here, photo_id),
        date_form=forms["date"],
        caption_form=forms["caption"],
        place_form=forms["place"],
        errors=form or FormState(),
        surfaces=(("", "choose a surface"), *((surface.code, surface.name) for surface in places.surfaces)),
        slots=slot_choices((slot for slot in places.slots if slot.photo_id != photo_id), places),
        items=item_choices(session, here, places, None),
        href=f"{here.base}/pictures/{photo_id}",
        original=f"/photos/{photo.sha256}/original",
        back=f"{here.base}/pictures",
        say=say_day(session, here, photo, filled),
        shows=shows_of(session, here, photo_id, own),
        filled_before=filled_before(session, here, photo_id),
        pins=pin_forms(session, here, photo_id, own, form if which == "pin" else None),
        alike=_alike(session, here, photo),
    )


def _alike(session: Session, here: Here, photo: PhotoFacts) -> tuple[Picture, ...]:
    taken_at = photo.taken_at if photo.taken_from == "camera" else None
    found = store.of_the_same_second(session, here.build.id, photo.id, taken_at)
    return tuple(picture(one) for one in list_photos(session, found))


def _facts(photo: PhotoFacts) -> tuple[tuple[str, str], ...]:
    said_by = {"camera": "as the camera wrote", "owner": "as you said", "unknown": ""}[photo.taken_from]
    taken = show_taken(photo.taken_at)
    return (
        ("Taken", f"{taken}, {said_by}" if said_by else taken),
        ("Came", show_moment(photo.received_at.astimezone())),
        ("Size", f"{photo.width} × {photo.height}"),
        ("File", photo.original_name or "no name"),
    )


def _place_rows(own: Iterable[PlaceFacts], places: Places, here: Here) -> tuple[PlaceRow, ...]:
    found = []
    for place in own:
        if place.surface_id is not None:
            href = f"{here.base}/surfaces/{places.code(place.surface_id)}"
            thing = places.items.get(place.item_id or 0, "")
            name = places.surface_name(place.surface_id)
            found.append(PlaceRow(place.id, f"{name}: {thing}" if thing else name, href))
    return tuple(found)


def _changes(session: Session, here: Here, photo_id: int) -> tuple[tuple[str, str, str], ...]:
    together = f"{here.base}/pictures/set?back="
    return tuple(
        (
            f"{change.field.capitalize()} was: {change.was or 'nothing'}",
            show_moment(change.at.astimezone()),
            f"{together}{change.together}" if change.together else "",
        )
        for change in list_changes(session, photo_id)
    )
