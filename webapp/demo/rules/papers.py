"""How the scenario's papers are kept: as a picture, as a file, or only the word where they lie."""

from webapp.demo.rules.told_rows import Paper
from webapp.papers.rules.kinds import PaperKind

AS_FILE = frozenset({"PA08"})
"""came as a PDF by mail"""
PHOTOGRAPHED_ALONE = frozenset({"PA22", "PA23", "PA24", "PA25", "PA27", "PA29", "PA33", "PA34"})
"""photographed for their own sake, though no result or amount rests on them"""
ABOUT = {
    "PA22": (("item", "S06"), ("item", "S11"), ("task", "AI08")),
    "PA23": (("item", "CE17"),),
    "PA25": (("item", "CE08"), ("task", "AI03")),
    "PA29": (("item", "E01"), ("task", "WI26")),
    "PA36": (("item", "E01"),),
    "PA41": (("item", "E13"), ("task", "WI25")),
}
"""what a paper is about by name, besides its permit and surfaces"""
IN_THE_FOLDER = "in the folder in the house"

_KINDS = (
    ("stamped plans", PaperKind.PLAN),
    ("permit card", PaperKind.CARD),
    ("inspection card", PaperKind.CARD),
    ("truss", PaperKind.ENGINEER),
    ("letter of consent", PaperKind.CONSENT),
    ("letter", PaperKind.LETTER),
    ("back-order letter", PaperKind.LETTER),
    ("extension request", PaperKind.LETTER),
    ("not ready", PaperKind.NOTICE),
    ("correction notice", PaperKind.NOTICE),
    ("locate marks", PaperKind.NOTICE),
    ("maker's sheet", PaperKind.MAKER),
    ("product card", PaperKind.PRODUCT),
    ("warranty", PaperKind.WARRANTY),
    ("fee receipt", PaperKind.INVOICE),
)


def kind_of(paper: Paper) -> PaperKind:
    if "invoice" in paper.kind:
        return PaperKind.INVOICE
    return next((kind for beginning, kind in _KINDS if paper.kind.startswith(beginning)), PaperKind.OTHER)


def where_of(paper: Paper, photographed: bool) -> str:
    """Where the paper itself lies, in the scenario's words."""
    if paper.note.startswith("on site "):
        return paper.note.removeprefix("on site ")
    if paper.note.startswith("in a sleeve"):
        return paper.note
    return "" if photographed or paper.id in AS_FILE else IN_THE_FOLDER


def note_of(paper: Paper) -> str:
    return "" if paper.note.startswith(("on site ", "in a sleeve")) else paper.note


def name_of(paper: Paper) -> str:
    return f"{paper.kind[:1].upper()}{paper.kind[1:]}"
