"""A picture of pencil notes or a sketch, with its spots: numbered on it, and line by line beneath."""

from collections.abc import Sequence
from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.photos.pages import Picture, picture
from webapp.photos.store import PhotoFacts, get_photo
from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.surfaces.forms import row_count_of, spot_of
from webapp.surfaces.pages.offsets import FROM_PICTURE, up_words, where_is
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.places import UP, outside
from webapp.surfaces.rules.quick import QUICK
from webapp.surfaces.rules.scaled import MILLION, Known, Spot, about, proposed, trouble
from webapp.surfaces.store import PointFacts, SurfaceFacts
from webapp.values.errors import NotFound
from webapp.values.length import show_length

WIDE = 400
"""units of the drawn picture's width"""
UPRIGHT = {SurfaceKind.WALL, SurfaceKind.OUTSIDE}
FLAT = "From a picture, distances are only worked out on walls."
MORE = "Tap two spots that you know, far apart, tick them as known, and distances of the others are proposed."


@dataclass(frozen=True, slots=True)
class Pin:
    """A number on the picture, where it was tapped, in units of the drawing."""

    number: int
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Row:
    """A spot that is tapped and not kept yet. `index`: the number in the names of its fields."""

    index: int
    number: int
    at: str


@dataclass(frozen=True, slots=True)
class Line:
    """A kept spot. `proposal`: where the picture says it is; `open`: whether it is still to become a thing."""

    id: int
    number: int
    what: str
    detail: str
    href: str
    proposal: str
    open: bool
    action: str
    form: FormState


@dataclass(frozen=True, slots=True)
class ReadPage:
    sheet: Sheet
    picture: Picture
    back: str
    action: str
    large: str
    height: int
    pins: tuple[Pin, ...]
    rows: tuple[Row, ...]
    next: int
    lines: tuple[Line, ...]
    scale: str
    form: FormState
    surfaces: tuple[tuple[str, str], ...]
    kinds: tuple[tuple[str, str], ...]
    across: str
    up: str


def read_page(
    session: Session, here: Here, photo_id: int, last: str = "", form: FormState | None = None, point_id: int = 0
) -> ReadPage:
    """`form`: spots tapped and not kept, or, with `point_id`, what was typed of a kept one. Raises NotFound."""
    own = store.places_of_photos(session, here.build.id, (photo_id,))
    if not own:
        raise NotFound("There is no such picture in this build.")
    photo, points = get_photo(session, photo_id), store.list_points(session, photo_id)
    surfaces = store.list_surfaces(session, here.build.id)
    surface = _surface(surfaces, [one.surface_id for one in own if one.surface_id], last)
    typed = form if form is not None and not point_id else None
    state = typed or FormState.of(surface=surface.code if surface else "")
    begun, height = store.last_number(session, photo_id), WIDE * photo.height // max(1, photo.width)
    rows = _rows(state, begun)
    spots = [(one.number, Spot(one.across, one.down)) for one in points]
    spots += [(row.number, spot) for row in rows if (spot := spot_of(row.at))]
    chosen = next((one for one in surfaces if one.code == state.value("surface")), surface)
    kind = SurfaceKind(chosen.kind) if chosen else SurfaceKind.WALL
    return ReadPage(
        sheet=here.sheet("W4", "Pictures", "Read it off"),
        picture=picture(photo, "Picture to be read off"),
        back=f"{here.base}/pictures/{photo_id}",
        action=f"{here.base}/pictures/{photo_id}/read",
        large=f"/photos/{photo.sha256}/1280",
        height=height,
        pins=tuple(
            Pin(number, round(spot.across * WIDE / MILLION, 1), round(spot.down * height / MILLION, 1))
            for number, spot in spots
        ),
        rows=rows,
        next=begun,
        lines=tuple(_line(session, here, photo, points, one, form if one.id == point_id else None) for one in points),
        scale=_scale_words(photo, points, surfaces),
        form=state,
        surfaces=(("", "choose a surface"), *((one.code, one.name) for one in surfaces)),
        kinds=(("", "something else"), *((one.kind, one.kind.capitalize()) for one in QUICK)),
        across=f"From {chosen.origin_corner}" if chosen and chosen.origin_corner else "From the corner",
        up=UP[kind],
    )


def _surface(surfaces: Sequence[SurfaceFacts], own: Sequence[int], last: str) -> SurfaceFacts | None:
    """The one that the picture is of, else the one used last."""
    wanted = own[0] if own else int(last) if last.isdecimal() and len(last) < 16 else 0
    return next((one for one in surfaces if one.id == wanted), None)


def _rows(state: FormState, begun: int) -> tuple[Row, ...]:
    found = ((index, state.value(f"at_{index}")) for index in range(1, row_count_of(state.value("rows")) + 1))
    return tuple(Row(index, begun + index, at) for index, at in found if spot_of(at))


def scale_of(points: Sequence[PointFacts], surface_id: int) -> tuple[Known, Known] | None:
    """The first two known spots of a surface on this picture."""
    known = [
        Known(Spot(one.across, one.down), one.x_nm, one.y_nm)
        for one in points
        if one.known and one.surface_id == surface_id and one.x_nm is not None and one.y_nm is not None
    ]
    return (known[0], known[1]) if len(known) > 1 else None


def proposal_of(
    photo: PhotoFacts, points: Sequence[PointFacts], point: PointFacts, surface: SurfaceFacts, unit: str
) -> tuple[int, int] | None:
    """Where the picture says that a spot is, to what a picture can say; None without a scale, or off its surface."""
    scale = scale_of(points, surface.id)
    if scale is None or SurfaceKind(surface.kind) not in UPRIGHT or trouble(*scale, photo.width, photo.height):
        return None
    found = proposed(*scale, photo.width, photo.height, Spot(point.across, point.down))
    x, y = (about(nm, unit in {"mm", "cm", "m"}) for nm in found)
    if x < 0 or y < 0 or outside(surface.kind, surface.length_nm, surface.height_nm, x, y, unit):
        return None
    return x, y


def _scale_words(photo: PhotoFacts, points: Sequence[PointFacts], surfaces: Sequence[SurfaceFacts]) -> str:
    """What there is to say of the scale; empty while nothing is kept."""
    for surface in surfaces:
        scale = scale_of(points, surface.id)
        if scale is not None:
            if SurfaceKind(surface.kind) not in UPRIGHT:
                return FLAT
            return trouble(*scale, photo.width, photo.height)
    return MORE if points else ""


def _line(
    session: Session,
    here: Here,
    photo: PhotoFacts,
    points: Sequence[PointFacts],
    point: PointFacts,
    form: FormState | None,
) -> Line:
    surface, unit = store.surface_by_id(session, here.build.id, point.surface_id), here.build.unit
    href, detail, proposal = "", surface.name, None
    if point.known and point.x_nm is not None and point.y_nm is not None:
        corner = surface.origin_corner or "the corner"
        place = f"{show_length(point.x_nm, unit)} from {corner}, {show_length(point.y_nm, unit)} {up_words(surface)}"
        detail = f"Known, gives the scale. {surface.name}, {place}"
    elif point.item_id is not None:
        item = store.get_item(session, here.build.id, point.item_id)
        href, detail = f"{here.base}/surfaces/{surface.code}/items/{item.id}", where_is(item, surface, unit)
    else:
        proposal = proposal_of(photo, points, point, surface, unit)
    return Line(
        id=point.id,
        number=point.number,
        what=point.what,
        detail=detail,
        href=href,
        proposal=_proposal_words(proposal, surface, unit) if proposal else "",
        open=point.item_id is None and not point.known,
        action=f"{here.base}/pictures/{point.photo_id}/read/{point.id}",
        form=form or FormState(),
    )


def _proposal_words(proposal: tuple[int, int], surface: SurfaceFacts, unit: str) -> str:
    x, y = (show_length(nm, unit) for nm in proposal)
    return f"About {x} from {surface.origin_corner or 'the corner'}, {y} {up_words(surface)}: {FROM_PICTURE}"
