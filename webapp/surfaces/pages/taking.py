"""Pictures first, the place after: the form that takes them in, and what can be said of those that came just now."""

from collections.abc import Iterable
from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.photos.pages import Picture, picture
from webapp.photos.store import list_photos
from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.surfaces.pages.choosing import Choice, Places, item_choices, places_of, slot_choices
from webapp.surfaces.pages.shows import SayDay, Shows, say_day, shows_of
from webapp.surfaces.store import SurfaceFacts

SHOWN = 30
"""of those that came just now"""


@dataclass(frozen=True, slots=True)
class Take:
    """The form: pictures, and where they belong. `on_to`: "many" comes back for the next ones."""

    action: str
    form: FormState
    surfaces: tuple[Choice, ...]
    slots: tuple[Choice, ...]
    items: tuple[Choice, ...]
    limit_mb: int
    on_to: str


@dataclass(frozen=True, slots=True)
class Just:
    """A picture that came just now: where it is, what it may show, and the day to be said where it has none."""

    picture: Picture
    href: str
    where: str
    say: SayDay | None
    shows: Shows


@dataclass(frozen=True, slots=True)
class ManyPage:
    """`together`: where all that came just now are put right in one go; empty for one alone."""

    sheet: Sheet
    surface: str
    back: str
    take: Take
    refused: tuple[str, ...]
    just: tuple[Just, ...]
    more: int
    here: str
    together: str


def take_form(
    session: Session,
    here: Here,
    places: Places,
    at: SurfaceFacts | None,
    limit_mb: int,
    form: FormState,
    on_to: str,
) -> Take:
    return Take(
        action=f"{here.base}/pictures",
        form=form,
        surfaces=(("", "no surface yet"), *((surface.code, surface.name) for surface in places.surfaces)),
        slots=slot_choices(places.slots, places),
        items=item_choices(session, here, places, at),
        limit_mb=limit_mb,
        on_to=on_to,
    )


def surface_asked(session: Session, here: Here, code: str, last: str) -> SurfaceFacts | None:
    """The surface of this short name, else the one with the id used last; None where there is none such."""
    surfaces = store.list_surfaces(session, here.build.id)
    asked = (one for one in surfaces if (one.code == code.upper() if code else str(one.id) == last))
    return next(asked, None)


def read_ids(text: str) -> tuple[int, ...]:
    """Pictures named in an address: "12.13.14"; what is no number is passed over."""
    return tuple(dict.fromkeys(int(part) for part in text.split(".") if part.isdecimal() and len(part) < 16))


def in_address(ids: Iterable[int]) -> str:
    return ".".join(map(str, ids))


def many_page(
    session: Session,
    here: Here,
    surface: SurfaceFacts | None,
    came: tuple[int, ...],
    limit_mb: int,
    form: FormState | None = None,
    refused: tuple[str, ...] = (),
) -> ManyPage:
    """`came`: the pictures sent just now; those of another build are passed over."""
    places = places_of(session, here, came)
    own = {place.photo_id for place in places.places}
    came = tuple(photo_id for photo_id in came if photo_id in own)
    code = surface.code if surface else ""
    query = f"surface={code}&came={in_address(came)}"
    state = form or FormState.of(surface=code)
    return ManyPage(
        sheet=here.sheet("W4", "Pictures", "Shoot many"),
        surface=surface.name if surface else "",
        back=f"{here.base}/surfaces/{code}" if surface else f"{here.base}/pictures",
        take=take_form(session, here, places, surface, limit_mb, state, "many"),
        refused=refused,
        just=_just(session, here, places, came[:SHOWN]),
        more=max(0, len(came) - SHOWN),
        here=f"{here.base}/pictures/many?{query}" if came else "",
        together=f"{here.base}/pictures/set?came={in_address(came)}" if len(came) > 1 else "",
    )


def _just(session: Session, here: Here, places: Places, came: tuple[int, ...]) -> tuple[Just, ...]:
    photos = {photo.id: photo for photo in list_photos(session, came)}
    made = []
    for photo_id in came:
        photo = photos[photo_id]
        own = [place for place in places.places if place.photo_id == photo_id]
        names = list(dict.fromkeys(places.surface_name(place.surface_id) for place in own))
        where = ", ".join(name for name in names if name) or "no place yet"
        filled = [slot for slot in places.slots if slot.photo_id == photo_id]
        fills = [f"fills {places.code(slot.surface_id)} {slot.number}: {slot.what}" for slot in filled]
        made.append(
            Just(
                picture=picture(photo, where),
                href=f"{here.base}/pictures/{photo_id}",
                where=". ".join((where, *fills)),
                say=say_day(session, here, photo, filled),
                shows=shows_of(session, here, photo_id, own),
            )
        )
    return tuple(made)
