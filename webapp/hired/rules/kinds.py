"""The words of hired trades."""

from enum import StrEnum


class PartKind(StrEnum):
    """What a hired trade can be doing."""

    TASK = "task"
    SURFACE = "surface"
    LINE = "line"
    ITEM = "item"


class WaitKind(StrEnum):
    """What is waited for from a hired trade."""

    CARD = "signed card"
    REPORT = "report"
    PERMIT = "permit"
    INVOICE = "invoice"
    WARRANTY = "warranty"
    INSTRUCTIONS = "maker's instructions"
    OTHER = "something else"
