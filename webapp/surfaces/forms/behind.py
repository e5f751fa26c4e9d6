"""Which spot of a surface is asked about: typed in the build's own unit, or tapped on a drawing of known width."""

from functools import partial

from webapp.core.forms import Reader, Submitted
from webapp.plan.guard import Here
from webapp.surfaces.rules.closeup import close_up_scale, window
from webapp.surfaces.rules.elevation import glance_scale
from webapp.surfaces.rules.face import Face, Point
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.places import ACROSS, outside
from webapp.surfaces.rules.spotted import Tapped, tapped_spot
from webapp.surfaces.store import SurfaceFacts
from webapp.values.errors import BadInput
from webapp.values.length import parse_length

TAPPED = {"small": 270, "phone": 344, "desk": 448}
"""how wide the drawing to be tapped is shown, in CSS pixels, by the name of the field; parts.css has the same widths"""


def read_asked_spot(sent: Submitted, here: Here, surface: SurfaceFacts) -> Point | None:
    """None while neither measure is typed. Raises BadForm with what is wrong beside each field."""
    if not sent.text("x") and not sent.text("y"):
        return None
    reader, unit = Reader(sent), here.build.unit
    place = partial(parse_length, unit=unit)
    x = reader.parsed("x", place, "Say also how far it is from the corner.")
    name = ACROSS[SurfaceKind(surface.kind)]
    y = reader.parsed("y", place, "Say also how high it is." if name == "height" else f"Say also its {name}.")
    for field, sentence in outside(surface.kind, surface.length_nm, surface.height_nm, x, y, unit).items():
        reader.wrong(field, sentence)
    reader.done()
    return (x or 0, y or 0)


def read_tap(sent: Submitted, face: Face) -> Point | None:
    """The spot tapped on the whole drawing, or, with `closer`, on the close-up of the spot before (`x`, `y`)."""
    for name, width in TAPPED.items():
        if sent.text(f"{name}.x") and sent.text(f"{name}.y"):
            at = Tapped(_number(sent.text(f"{name}.x")), _number(sent.text(f"{name}.y")), width)
            if not sent.text("closer"):
                return tapped_spot(glance_scale(face)[0], face, at)
            before = (parse_length(sent.text("x"), face.unit), parse_length(sent.text("y"), face.unit))
            return tapped_spot(close_up_scale(face, window(face, before)), face, at)
    return None


def _number(text: str) -> float:
    """What a browser says of a tap: whole pixels."""
    if not text.lstrip("-").isdecimal() or len(text) > len("-99999"):
        raise BadInput("Tap the drawing again, or type where it is.")
    return float(text)
