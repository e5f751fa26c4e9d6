"""Fields that several forms of a visit share."""

from collections.abc import Callable

from webapp.core.forms import Reader, Upload
from webapp.inspections.rules.kinds import Evidence

Keep = Callable[[Upload], int]
WHOLE = "whole"


def place_name(surface_id: int | None) -> str:
    """What a surface is called in the names of fields."""
    return WHOLE if surface_id is None else str(surface_id)


def read_paper(read: Reader, keep: Keep) -> tuple[Evidence, int | None]:
    """What a result rests on, and the picture of it."""
    evidence = Evidence(read.one_of("evidence", list(Evidence), Evidence.MY_NOTE.value))
    photo_id = read.file("paper", keep)
    if photo_id is not None and evidence == Evidence.MY_NOTE:
        read.wrong("evidence", "Say what paper the picture shows: the card, a notice, a slip, a letter or report.")
    return evidence, photo_id
