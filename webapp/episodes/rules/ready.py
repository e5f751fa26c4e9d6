"""May an episode go out? A no names everything that is missing, each with where to settle it."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from webapp.values.dates import show_date
from webapp.values.verdict import Reason, Verdict


@dataclass(frozen=True, slots=True)
class PictureState:
    """A chosen picture, numbered from 1."""

    number: int
    photo_id: int
    alt: str
    looked_over: bool
    broken: bool


@dataclass(frozen=True, slots=True)
class GoingOut:
    """What is looked at before an episode goes out. `last_told` is the last day of the episode before, if any."""

    title: str
    text: str
    from_day: date
    to_day: date
    today: date
    last_told: date | None
    pictures: tuple[PictureState, ...] = ()
    no_longer_so: tuple[str, ...] = ()
    """sentences taken over whose facts do not say so any more"""
    named: tuple[str, ...] = ()
    """names in its words whose owners did not say yes"""
    perhaps_named: tuple[str, ...] = ()
    """first names that may be theirs, or somebody else's"""
    people_href: str = ""


def _words(state: GoingOut) -> Iterator[Reason]:
    if not state.title.strip():
        yield Reason("It has no title", "One line is enough.", "#f-title")
    if not state.text.strip():
        yield Reason("There is no text", "Take the draft over, or write your own.", "#f-text")


def _days(state: GoingOut) -> Iterator[Reason]:
    if state.to_day > state.today:
        yield Reason("Its last day lies ahead", f"{show_date(state.to_day)} has not happened yet.", "#f-to_day")
    if state.from_day > state.today:
        yield Reason("It has not begun yet", f"Its first day is {show_date(state.from_day)}.", "#f-from_day")
    elif state.to_day < state.from_day:
        yield Reason("Its last day is before its first", "Look at the two days again.", "#f-to_day")
    if state.last_told and state.from_day <= state.last_told:
        told = show_date(state.last_told)
        yield Reason("It begins too early", f"The episode before goes up to {told}.", "#f-from_day")


def _pictures(state: GoingOut) -> Iterator[Reason]:
    for picture in state.pictures:
        href = f"#picture-{picture.photo_id}"
        if not picture.alt.strip():
            yield Reason(f"Picture {picture.number} has no words", "For those who cannot see it.", href)
        if not picture.looked_over:
            yield Reason(f"Picture {picture.number} is not looked over", "Look for what is private in it.", href)
        if picture.broken:
            yield Reason(f"Picture {picture.number} cannot be drawn", "Its file is damaged. Leave it out.", href)


def _named(state: GoingOut) -> Iterator[Reason]:
    for name in state.named:
        detail = f"Take the name out, or write down that {name} said yes."
        yield Reason(f"{name} is named and has not said yes", detail, state.people_href)
    for name in state.perhaps_named:
        yield Reason(f"Is this {name} somebody who has not said yes?", "Look again.", "#f-text", hard=False)


def may_go_out(state: GoingOut) -> Verdict:
    """Hard reasons stop it. A sentence that is no longer so is a wish: the builder may have reworded it already."""
    doubts = (
        Reason("Look at this sentence again", f"{words} The record no longer says so.", "#f-text", hard=False)
        for words in state.no_longer_so
    )
    return Verdict((*_words(state), *_days(state), *_pictures(state), *_named(state), *doubts))
