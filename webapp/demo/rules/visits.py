"""What the scenario says of visits in passing: what they hold up, what was asked for, which pictures belong to them."""

import re
from dataclasses import dataclass

from webapp.demo.rules.plan_rows import Inspection

_AFTER_COVER = {"tape", "final building", "use of the room"}
_PRINTED = "front of my card"
_WINDOW = re.compile(r"\s*Window (\d\d:\d\d to \d\d:\d\d)\.")

WITHDRAWN = {"X18": "PA14"}
"""result taken back -> the letter that did it"""

PHOTOGRAPHED = {"PA09": "P043", "PA10": "P033", "PA12": "P062", "PA19": "P122", "PA20": "P100"}
"""papers that are in one of the builder's own pictures"""

CORRECTION_PICTURES = {
    "K01": ("P081", ""),
    "K02": ("P111", "P112"),
    "K03": ("P040", "P041"),
    "K04": ("", "P113"),
    "K06": ("P094", ""),
    "K07": ("P098", "P099"),
}
"""correction -> picture before and after"""


CORRECTION_MINUTES = {"K01": 45, "K02": 180, "K03": 60, "K04": 45, "K05": 60, "K06": 45, "K07": 15, "K08": 15}
"""how long each may take to put right"""

_INCH = 25_400_000
CORRECTION_PLACES = {"K02": (56 * _INCH, 60 * _INCH)}
"""where those are that belong to no thing on record: beside the west window"""

ADVICE_ABOUT = {"VA5": "IREL", "VA6": "IFRM", "VA7": "IFRM", "VA8": "IINS", "VA9": "IREL"}
"""what was said -> the inspection it was about"""


@dataclass(frozen=True, slots=True)
class Asked:
    """Something the inspector asked to have ready. `done` is the task or workday that saw to it; empty while open."""

    visit: str
    inspection: str
    surface: str
    words: str
    stops: bool = False
    done: str = ""


ASKED = (
    Asked("V03", "ISLB", "SL", "Leave the print side of the barrier up.", done="SB07"),
    Asked(
        "V06", "IFRM", "", "A ladder on site, so that the plates and the hangers can be seen.", stops=True, done="D147"
    ),
    Asked("V10", "IINS", "", "The product card up, its print turned outwards.", stops=True, done="D091"),
    Asked("V09", "IREL", "S", "First staple at six inches; eight is what the book says.", done="WI12"),
    Asked("V15", "IFRM", "W", "Have the window in and the duct up, then ring: he would rather come once."),
)


def holds_cover(inspection: Inspection) -> bool:
    """Whether its surfaces stay open until it passed: board screws and finals are looked at afterwards."""
    return inspection.before_what not in _AFTER_COVER


def renews_permit(inspection: Inspection) -> bool:
    """The building permit counts only the stages printed on the front of its card."""
    return inspection.permit != "BLD" or inspection.source == _PRINTED


def window_of(note: str) -> tuple[str, str]:
    """The hours a visit is announced for, and the note without them."""
    found = _WINDOW.search(note)
    return (found[1], note.replace(found[0], "")) if found else ("", note)
