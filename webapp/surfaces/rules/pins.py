"""Pictures pinned to the drawing of a surface: a small camera with a number, where each was taken of."""

from collections.abc import Iterable
from dataclasses import dataclass

from webapp.surfaces.rules.drawing import Scale, circle, show


@dataclass(frozen=True, slots=True)
class Pin:
    """A picture's place, from the named corner and as high as things are measured; `words` say what it shows."""

    photo_id: int
    x_nm: int
    y_nm: int
    words: str


@dataclass(frozen=True, slots=True)
class PinMark:
    """A pin in drawing units."""

    number: int
    photo_id: int
    words: str
    x: float
    y: float

    @property
    def svg(self) -> str:
        """A camera, and its number to the right of it. Nothing in it is typed by anybody."""
        body = f"M{show(self.x - 9)} {show(self.y - 5)}h4l2 -3h6l2 3h4v11h-18z"
        at = f'x="{show(self.x + 11.5)}" y="{show(self.y + 6)}"'
        number = f'<text class="halo b" {at}>{self.number}</text>' if self.number else ""
        lens = circle(self.x, self.y, 3)
        hit = circle(self.x, self.y, 20)
        return f'<path pointer-events="all" d="{hit}"/><path class="l2 f-paper" d="{body}{lens}"/>{number}'


def spot(scale: Scale) -> str:
    """Where offset 0 lies, how many units a nanometre takes along and across, and which way the second one runs."""
    zero, way = (scale.top, 1) if scale.down else (scale.base, -1)
    return f"{show(scale.left)} {show(zero)} {scale.along!r} {scale.across!r} {way}"


def numbered(pins: Iterable[Pin]) -> tuple[Pin, ...]:
    """From the corner on, then from below; their place in this row is their number."""
    return tuple(sorted(pins, key=lambda pin: (pin.x_nm, pin.y_nm, pin.photo_id)))


def marks(pins: Iterable[Pin], scale: Scale) -> tuple[PinMark, ...]:
    """As they lie on a drawing of that scale."""
    placed = []
    for number, pin in enumerate(pins, 1):
        x, y = scale.at((pin.x_nm, pin.y_nm))
        placed.append(PinMark(number, pin.photo_id, pin.words, x, y))
    return tuple(placed)
