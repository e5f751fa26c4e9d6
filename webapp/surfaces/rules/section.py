"""The small cross-section of a surface: which layers are drawn, from what is true of it.

Letters are the symbols of `static/sprite.svg`. A wall or ceiling fills from the sheathing to the board; services are
drawn only while nothing hides them; plates are inked once the inspector has seen them, so that board over unseen work
shows at a glance. A trench and a slab have their own four.
"""

from dataclasses import dataclass

GROUND = {"trench": "ghij", "slab": "klmn"}
UPRIGHT = {"wall", "outside face"}
LYING = {"ceiling", "floor"}


@dataclass(frozen=True, slots=True)
class SurfaceState:
    """What is true of one surface."""

    kind: str
    services: bool = False
    """pipes, cables or ducts are in"""
    seen: bool = False
    """every visit owed before insulation passed"""
    insulated: bool = False
    may_be_covered: bool = False
    covered: bool = False
    by_mistake: bool = False
    """something covers it that was not cleared: drawn as what is there, over plates that nobody has seen"""


def layers(state: SurfaceState, large: bool = False) -> str:
    """Symbols to stack, bottom first: "acd" at 24 px, "ACD" at 48 px and up."""
    if state.kind in GROUND:
        start, ready, seen, closed = tuple(GROUND[state.kind])
        return (
            start
            + (ready if state.services or state.seen else "")
            + (seen if state.seen else "")
            + (closed if state.covered or state.by_mistake else "")
        )
    drawn = "a" + ("c" if state.seen else "o")
    shut = state.covered or state.by_mistake
    if state.services and not (state.insulated or shut):
        drawn += "b"
    if state.insulated:
        drawn += "d"
    if shut:
        drawn += "f"
    elif state.may_be_covered:
        drawn += "e"
    if not large:
        return drawn
    # The tick on large inked plates would stand on its side in a ceiling, which is the same mark turned.
    return "".join("c" if letter == "c" and state.kind not in UPRIGHT else letter.upper() for letter in drawn)


def is_turned(kind: str) -> bool:
    """Whether the mark is drawn lying down."""
    return kind in LYING


def in_words(state: SurfaceState) -> str:
    """The same in a few words, since no mark stands without them."""
    if state.by_mistake and not state.covered:
        return "covered by mistake, not cleared"
    if state.covered:
        return "closed" if state.seen else "closed, not seen before"
    if state.may_be_covered:
        return "may be covered"
    if state.insulated:
        return "insulated" if state.seen else "insulated, not seen before"
    if state.seen:
        return "seen by the inspector"
    if state.services:
        return "services in"
    return "open"
