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


class LineKind(StrEnum):
    """What a line of a service is."""

    FEEDER = "feeder"
    CIRCUIT = "circuit"
    GROUNDING = "grounding"
    LOW_VOLTAGE = "low voltage"
    WATER = "water"
    DRAIN = "drain"
    VENT = "vent"
    CONDENSATE = "condensate"
    GAS = "gas"
    DUCT = "duct"
    LINE_SET = "line set"
    TRACER = "tracer wire"
    WARNING_TAPE = "warning tape"
    OTHER = "other"


class CoverStepKind(StrEnum):
    """What was done about a surface that was covered by mistake."""

    ASKED = "asked"
    ANSWERED = "answered"
    OPENED = "opened"
    LOOKED_AT = "looked at"


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
