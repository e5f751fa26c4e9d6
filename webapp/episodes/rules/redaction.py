"""What of hours and money is told: nothing, roughly, or exactly. Hidden is the default for money."""

from collections.abc import Iterator

from webapp.episodes.rules.facts import Hours
from webapp.values.duration import show_minutes
from webapp.values.money import show_money

HIDDEN = "hidden"
ROUNDED = "rounded"
EXACT = "exact"
ROUND_TO_CENTS = 100_00


def rounded_cents(cents: int) -> int:
    """To the nearest whole hundred; a half goes away from zero."""
    size = (abs(cents) + ROUND_TO_CENTS // 2) // ROUND_TO_CENTS * ROUND_TO_CENTS
    return -size if cents < 0 else size


def spend_words(cents: int, currency: str, shown: str) -> str:
    """What is said of the money, as the middle of a sentence; empty when it is hidden or there is none."""
    if shown == HIDDEN or not cents:
        return ""
    if shown == EXACT:
        return show_money(cents, currency)
    near = rounded_cents(cents)
    if not near:
        return f"less than {currency} 100"
    return f"about {show_money(near, currency).removesuffix('.00')}"


def _by_hand(hours: Hours) -> Iterator[str]:
    for minutes, whose in (
        (hours.own, "of my own"),
        (hours.unpaid, "of unpaid help"),
        (hours.paid, "of paid help"),
        (hours.hired, "hired"),
    ):
        if minutes:
            yield f"{show_minutes(minutes)} {whose}"


def hours_words(hours: Hours, shown: bool) -> tuple[str, ...]:
    """Hours by whose hands they were; nothing when they are not shown or none were noted."""
    return tuple(_by_hand(hours)) if shown else ()
