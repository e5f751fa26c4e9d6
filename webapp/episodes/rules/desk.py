"""What the builder decides on the desk, as plain values."""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class Desk:
    """Words, days and choices of an episode. `to_day` None: until it is cut."""

    title: str
    from_day: date
    to_day: date | None
    text: str
    questions: str
    show_hours: bool
    show_spend: str


@dataclass(frozen=True, slots=True)
class PictureWords:
    """What is said of one chosen picture, and whether it was looked over for what is private."""

    photo_id: int
    caption: str
    alt: str
    looked_over: bool
