"""Telling a PDF by its own marks, so that a name or a header sent along is never believed."""

BEGINS = b"%PDF-"
ENDS = b"%%EOF"
"""the first and the last line of every file (ISO 32000-1, 7.5.2 and 7.5.5)"""
TAIL = 1024
"""bytes in which the end mark is looked for: readers do the same (ISO 32000-1, annex H, note 18 to 3.4.4)"""
MEDIA_TYPE = "application/pdf"


def begins_as_pdf(head: bytes) -> bool:
    return head.startswith(BEGINS)


def is_whole(tail: bytes) -> bool:
    """Whether the end mark is there: a file cut off on the way has none."""
    return ENDS in tail[-TAIL:]
