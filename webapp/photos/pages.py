"""How a picture is shown wherever it stands."""

from dataclasses import dataclass
from datetime import datetime

from webapp.photos.rules.names import SMALL, fitted
from webapp.photos.store import PhotoFacts
from webapp.values.dates import show_date


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture as `photos/_picture.html` draws it. `made`: waiting, ready or broken; `alt` says what is seen."""

    id: int
    sha256: str
    alt: str
    made: str
    width: int
    height: int
    taken: str
    """"9 May 2026, 17:48", or "date unknown" """

    @property
    def small(self) -> str:
        return f"/photos/{self.sha256}/320"

    @property
    def large(self) -> str:
        return f"/photos/{self.sha256}/1280"


def picture(photo: PhotoFacts, alt: str = "") -> Picture:
    """`alt` is used where the builder wrote no caption."""
    width, height = fitted(photo.width, photo.height, SMALL)
    seen = photo.caption or alt or "Picture without words"
    return Picture(photo.id, photo.sha256, seen, photo.made, width, height, show_taken(photo.taken_at))


def show_taken(taken_at: str | None) -> str:
    """`9 May 2026, 17:48`; without a time where only the day is known (kept as midnight); "date unknown"."""
    if taken_at is None:
        return "date unknown"
    moment = datetime.fromisoformat(taken_at)
    day = show_date(moment.date())
    return f"{day}, {moment:%H:%M}" if (moment.hour, moment.minute, moment.second) != (0, 0, 0) else day
