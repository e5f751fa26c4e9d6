"""What a surface owes in pictures, held against those on its list: what is new, what was declined, and what a line of
the builder's own seems to show already."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Protocol

from webapp.surfaces.rules.wanted import OwedPicture


class Slot(Protocol):
    """An owed picture as it is kept."""

    @property
    def number(self) -> int: ...
    @property
    def what(self) -> str: ...
    @property
    def picture_set(self) -> str: ...
    @property
    def photo_id(self) -> int | None: ...
    @property
    def made_from(self) -> str: ...
    @property
    def ended_on(self) -> date | None: ...


@dataclass(frozen=True, slots=True)
class Offer:
    """A picture that could be owed; `shown_by`: number of the builder's own line that seems to say the same, or 0."""

    picture: OwedPicture
    shown_by: int = 0
    its_words: str = ""


@dataclass(frozen=True, slots=True)
class Offers:
    """`open`: not on the list and never declined; `declined`: was offered once and not wanted."""

    open: tuple[Offer, ...]
    declined: tuple[OwedPicture, ...]

    @property
    def missing(self) -> tuple[OwedPicture, ...]:
        """What nothing on the list seems to show."""
        return tuple(offer.picture for offer in self.open if not offer.shown_by)


def compare(pictures: Iterable[OwedPicture], slots: Sequence[Slot], ended: Sequence[Slot]) -> Offers:
    """`slots` are owed now, `ended` are history: one that ended without a picture was declined."""
    there = {slot.made_from for slot in slots if slot.made_from}
    refused = {slot.made_from for slot in ended if is_declined(slot)} - there
    own = [slot for slot in slots if not slot.made_from]
    left = [picture for picture in pictures if picture.key not in there]
    offers = (_offer(picture, own) for picture in left if picture.key not in refused)
    return Offers(tuple(offers), tuple(picture for picture in left if picture.key in refused))


def is_declined(slot: Slot) -> bool:
    """Whether an ended slot is the memory of an offer that was not wanted. What was moved away is told by its key: the
    new state has another one, and what had a picture is offered again."""
    return slot.ended_on is not None and slot.made_from != "" and slot.photo_id is None


def _offer(picture: OwedPicture, own: Iterable[Slot]) -> Offer:
    same = [slot for slot in own if slot.picture_set in {picture.picture_set, "general"} and _says(slot.what, picture)]
    if not same or (picture.places and len(same) < 2):
        return Offer(picture)
    at = (picture.place - 1) * len(same) // picture.places if picture.places else 0
    return Offer(picture, same[at].number, same[at].what)


def _says(words: str, picture: OwedPicture) -> bool:
    told = words.casefold()
    return any(re.search(rf"\b{re.escape(sign.casefold())}\b", told) for sign in picture.signs)
