"""The words surfaces are described in."""

from enum import StrEnum


class SurfaceKind(StrEnum):
    WALL = "wall"
    CEILING = "ceiling"
    FLOOR = "floor"
    SLAB = "slab"
    TRENCH = "trench"
    OUTSIDE = "outside face"


class OpeningKind(StrEnum):
    WINDOW = "window"
    DOOR = "door"
    HATCH = "hatch"
    SLEEVE = "sleeve"


class QuestionKind(StrEnum):
    """A danger or code question stops; the other two do not."""

    DANGER = "danger"
    CODE = "code"
    BETTER_WAY = "better way"
    QUESTION = "question"


class LiftedBy(StrEnum):
    """Who let an owed thing go: me with a reason (my own evidence), or the authority by its own word."""

    ME = "me"
    AUTHORITY = "authority"


SERVICES = ("electric", "data", "water", "drain", "vent", "gas", "air", "framing", "other")
SERVICE_LETTERS = {
    "electric": "e",
    "data": "t",
    "water": "w",
    "drain": "d",
    "vent": "d",
    "gas": "g",
    "air": "a",
    "framing": "",
    "other": "a",
}
"""letter and colour class in drawings, after the public marking colours for buried lines"""
