"""Fields that several forms of a visit share."""

from collections.abc import Callable, Mapping

from webapp.core.forms import Reader, Upload
from webapp.inspections.rules.kinds import Evidence
from webapp.inspections.rules.record import RestsOn

Keep = Callable[[Upload], int]
WHOLE = "whole"


def place_name(surface_id: int | None) -> str:
    """What a surface is called in the names of fields."""
    return WHOLE if surface_id is None else str(surface_id)


def read_paper(read: Reader, keep: Keep, hired: Mapping[str, str]) -> RestsOn:
    """What a result rests on, the picture of it, who signed and which trade passed it on. `hired`: id to trade."""
    evidence = Evidence(read.one_of("evidence", list(Evidence), Evidence.MY_NOTE.value))
    photo_id = read.file("paper", keep)
    who, trade = read.text("signed_by", most=80), read.one_of("hired", ("", *hired))
    if photo_id is not None and evidence == Evidence.MY_NOTE:
        read.wrong("evidence", "Say what paper the picture shows: the card, a notice, a slip, a letter or report.")
    elif trade and evidence == Evidence.MY_NOTE:
        choose = "Choose their word, or what paper it is."
        read.wrong("evidence", f"The {hired[trade]} passed it on, so it is no note of mine. {choose}")
    if evidence == Evidence.THEIR_WORD and not (who or trade):
        read.wrong("signed_by", "Whose word is it? The trade: electrician, plumber.")
    if evidence == Evidence.THEIR_WORD and trade:
        who = who or hired[trade]
    return RestsOn(evidence, photo_id, who, int(trade) if trade else None)
