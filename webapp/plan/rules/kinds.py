"""The words the plan is written in."""

from enum import StrEnum


class TaskState(StrEnum):
    """How a task stands. `reopened` was done once and is not any more."""

    NOT_STARTED = "not started"
    UNDER_WAY = "under way"
    DONE = "done"
    REOPENED = "reopened"


class Who(StrEnum):
    """Whose hands: my own, mine with a helper, or hired."""

    SELF = "self"
    HELPER = "helper"
    HIRED = "hired"


class Weather(StrEnum):
    ANY = "any"
    DRY = "dry"


class LengthUnit(StrEnum):
    """The build's unit: what a bare number means and how lengths are shown."""

    FEET_INCHES = "ft-in"
    INCHES = "in"
    MILLIMETRES = "mm"
    METRES = "m"


class Strength(StrEnum):
    """A hard need stops; a wish is only preferred."""

    HARD = "hard"
    WISH = "wish"


class NeedKind(StrEnum):
    """What can need, and what can be needed."""

    TASK = "task"
    INSPECTION = "inspection"
    CORRECTION = "correction"
    QUESTION = "question"
    SHOT = "shot"
    PICTURES = "pictures"
    PERMIT = "permit"


class BookedState(StrEnum):
    """How something stands that was to come on a day."""

    BOOKED = "booked"
    TO_MOVE = "has to be moved"
    CALLED_OFF = "called off"
    CAME = "came"


WORK_KINDS = (
    "board",
    "checking",
    "cleaning",
    "concrete",
    "demolition",
    "digging",
    "ducting",
    "editing",
    "finishing",
    "fitting",
    "framing",
    "gas",
    "handling",
    "insulation",
    "joinery",
    "low voltage",
    "measuring",
    "ordering",
    "paperwork",
    "plumbing",
    "roofing",
    "sheathing",
    "wiring",
)
