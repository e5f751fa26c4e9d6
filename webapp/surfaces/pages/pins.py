"""Pictures pinned to a surface's drawing, and the form that pins one."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.photos.store import list_photos
from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.surfaces.pages.drawing import Elevation, elevation
from webapp.surfaces.pages.pinned import PinLine, pin_lines, pin_words, pins_of
from webapp.surfaces.rules.drawing import Scale
from webapp.surfaces.rules.elevation import glance_scale
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.pins import Pin, PinMark, marks, spot
from webapp.surfaces.rules.places import UP
from webapp.surfaces.rules.tagging import face_of, tags_of
from webapp.surfaces.store import PlaceFacts, SurfaceFacts
from webapp.values.length import field_length


@dataclass(frozen=True, slots=True)
class PinForm:
    """One surface of a picture, drawn, with the pin where it is. `offers`: things it is of, to be pinned at."""

    code: str
    name: str
    drawn: Elevation
    spot: str
    """numbers by which a place on the drawing is turned into offsets"""
    mark: tuple[PinMark, ...]
    form: FormState
    pinned: bool
    offers: tuple[tuple[str, str], ...]
    across: str
    up: str
    unit: str


@dataclass(frozen=True, slots=True)
class PhotoMap:
    """The pinned pictures of a surface, drawn and in words."""

    drawn: Elevation
    marks: tuple[PinMark, ...]
    lines: tuple[PinLine, ...]


def photo_map(session: Session, here: Here, surface: SurfaceFacts, drawn: Elevation | None) -> PhotoMap | None:
    """None where nothing is pinned, or nothing can be drawn."""
    pins = pins_of(session, here, surface)
    if drawn is None or not pins:
        return None
    return PhotoMap(drawn, marks(pins, _scale(surface, here.build.unit)), pin_lines(pins, here, surface))


def _scale(surface: SurfaceFacts, unit: str) -> Scale:
    """Of the drawing at a glance. Raises ValueError for a surface that cannot be drawn."""
    face = face_of(surface, unit)
    if face is None:
        raise ValueError(f"{surface.code} has no measures to draw it by")
    return glance_scale(face)[0]


def pin_forms(
    session: Session, here: Here, photo_id: int, own: Sequence[PlaceFacts], form: FormState | None
) -> tuple[PinForm, ...]:
    """`form`: what was typed and not taken, for the surface that it names."""
    made = []
    for surface in store.list_surfaces(session, here.build.id):
        places = [place for place in own if place.surface_id == surface.id]
        drawn = elevation(session, here, surface) if places else None
        if drawn is not None:
            typed = form if form is not None and form.value("surface") == surface.code else None
            made.append(_pin_form(session, here, photo_id, surface, drawn, places, typed))
    return tuple(made)


def _pin_form(
    session: Session,
    here: Here,
    photo_id: int,
    surface: SurfaceFacts,
    drawn: Elevation,
    places: Sequence[PlaceFacts],
    typed: FormState | None,
) -> PinForm:
    unit, scale = here.build.unit, _scale(surface, here.build.unit)
    at = next(((one.x_nm, one.y_nm) for one in places if one.x_nm is not None and one.y_nm is not None), None)
    items = [one for one in store.list_items(session, here.build.id) if one.surface_id == surface.id]
    tags, shown = tags_of(items), {place.item_id for place in places}
    state = FormState.of(x=field_length(at[0], unit), y=field_length(at[1], unit)) if at else FormState()
    words = pin_words(list_photos(session, (photo_id,))[0], "")
    mark = tuple(replace(one, number=0) for one in marks((Pin(photo_id, *at, words),), scale)) if at else ()
    return PinForm(
        code=surface.code,
        name=surface.name,
        drawn=drawn,
        spot=spot(scale),
        mark=mark,
        form=typed or state,
        pinned=at is not None,
        offers=tuple(
            (str(one.id), f"{tags[one.id]} {one.label}") for one in items if one.id in shown and one.id in tags
        ),
        across=f"From {surface.origin_corner}" if surface.origin_corner else "From the corner",
        up=UP[SurfaceKind(surface.kind)],
        unit=unit,
    )
