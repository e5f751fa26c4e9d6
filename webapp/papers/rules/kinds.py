"""The words of papers."""

from enum import StrEnum


class PaperKind(StrEnum):
    """What a paper is."""

    PLAN = "approved plan"
    CARD = "permit or inspection card"
    NOTICE = "notice or slip"
    LETTER = "letter"
    ENGINEER = "engineer's or truss paper"
    MAKER = "maker's instructions"
    HANDOUT = "authority's handout"
    PRODUCT = "product card or label"
    WARRANTY = "warranty"
    INVOICE = "invoice or receipt"
    CONSENT = "letter of consent"
    OTHER = "other"


class AboutKind(StrEnum):
    """What a paper can be about."""

    PERMIT = "permit"
    INSPECTION = "inspection"
    VISIT = "visit"
    SURFACE = "surface"
    ITEM = "item"
    LINE = "line"
    TASK = "task"
    HIRED = "hired"
