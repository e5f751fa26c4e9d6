"""An episode as a viewer sees it: made from the frozen copy, and from a draft for looking at it beforehand."""

from dataclasses import dataclass
from datetime import date

from webapp.audience.rules.snapshot import Caution
from webapp.photos.rules.names import SMALL, fitted


@dataclass(frozen=True, slots=True)
class PictureView:
    src: str
    small_src: str
    width: int
    height: int
    caption: str
    alt: str

    @property
    def small_width(self) -> int:
        """How wide the small copy is: both copies are bounded by their longest side."""
        return fitted(self.width, self.height, SMALL)[0]


@dataclass(frozen=True, slots=True)
class CorrectionView:
    """A dated correction; numbered from 1 in the order they were made."""

    number: int
    day: date
    words: str


@dataclass(frozen=True, slots=True)
class EpisodeView:
    """Everything the public page of one episode says. `published_on` is None while it is looked at beforehand."""

    number: int
    title: str
    published_on: date | None
    from_day: date
    to_day: date
    body_html: str
    pictures: tuple[PictureView, ...] = ()
    cautions: tuple[Caution, ...] = ()
    corrections: tuple[CorrectionView, ...] = ()

    @property
    def latest_first(self) -> tuple[CorrectionView, ...]:
        return self.corrections[::-1]


def public_slug(slug: str) -> str:
    """The build's name in public addresses; `/watch/pictures/…` is taken by the pictures themselves."""
    return f"{slug}-build" if slug == "pictures" else slug


def public_path(slug: str, number: int | None = None) -> str:
    return f"/watch/{slug}" if number is None else f"/watch/{slug}/{number}"


def picture_file(name: str, size: int) -> str:
    """File name of one public copy; `name` is random and says nothing."""
    return f"{name}-{size}.webp"
