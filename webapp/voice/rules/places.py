"""Where a voice note can belong, as the packages above name it."""

from dataclasses import dataclass
from enum import StrEnum


class PlaceKind(StrEnum):
    """What a note can be about; without any it is loose, to be placed later."""

    SURFACE = "surface"
    WORKDAY = "workday"
    VISIT = "visit"


@dataclass(frozen=True, slots=True)
class Spot:
    """One thing a note can be about. `name`: how its address names it."""

    kind: str
    id: int
    name: str
    label: str
    href: str

    @property
    def key(self) -> str:
        """How a form and an address name it: `surface/N`."""
        return f"{self.kind}/{self.name}"
