"""Work that can hurt somebody who is alone, as the builder ticks it: nothing is guessed from the words of a task.

The sentences are usual cautions and no permission. The federal rules cited bind employers, not an owner who works
alone; a clause of 29 CFR has no edition (it is cited as amended).
"""

from collections.abc import Collection
from dataclasses import dataclass
from enum import StrEnum

from webapp.values.words import join_words


class Danger(StrEnum):
    LADDER = "ladder"
    ROOF = "roof"
    SAW = "saw"
    TRENCH = "trench"
    LIVE = "live wires"


@dataclass(frozen=True, slots=True)
class Before:
    """`how`: as it follows the title of a task. `says`: one sentence to read before. `source`: where it comes from."""

    how: str
    says: str
    source: str


BEFORE = {
    Danger.LADDER: Before(
        "on a ladder",
        "Ladder: its foot out a quarter of the working length, its top tied.",
        "29 CFR 1926.1053(b)(5)(i); tied: common practice; see also OSHA 3124, Stairways and Ladders",
    ),
    Danger.ROOF: Before(
        "on the roof",
        "Roof: from 6 ft up building sites must have guard rails, a net or a harness. Wet, frost, wind: another day.",
        "29 CFR 1926.501(b)(1) and (b)(13); weather: common practice",
    ),
    Danger.SAW: Before(
        "with a saw",
        "Saw: guard on, cable out before the blade is touched, and stop when you are tired.",
        "Common practice, no source",
    ),
    Danger.TRENCH: Before(
        "in a trench deeper than I can climb out of",
        "Trench: from 4 ft deep a ladder or ramp within 25 ft; from 5 ft it is sloped, shored or shielded first. "
        "Alone, stay out of it.",
        "29 CFR 1926.651(c)(2) and 1926.652(a)(1); alone: common practice",
    ),
    Danger.LIVE: Before(
        "near live wires",
        "Live wires: this is for a licensed electrician. Off, locked and proved dead, or leave it.",
        "29 CFR 1910.333(a)(1) and (b); licensed electrician: common practice",
    ),
}
ALONE = (
    "Tell somebody where you are and when you will be back.",
    "The phone is on your body, not in the coat.",
    "Say when they should call, and whom if you do not answer.",
)
ALONE_SOURCE = (
    "HSE, Working alone, INDG73: keeping in touch with those who work alone (title from memory); "
    "phone on the body: common practice, no source"
)
NO_PROMISE = "A reminder. It makes nothing harmless, and Studbay calls nobody: only the person you told can."


def in_order(dangers: Collection[str]) -> tuple[Danger, ...]:
    """Those that are known, in the order they are offered."""
    return tuple(danger for danger in Danger if danger in dangers)


def how_words(dangers: Collection[str]) -> str:
    """`on a ladder and with a saw`; empty for none."""
    return join_words([BEFORE[danger].how for danger in in_order(dangers)])
