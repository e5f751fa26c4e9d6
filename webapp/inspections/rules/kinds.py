"""The words of permits, visits and results."""

from enum import StrEnum


class ResultKind(StrEnum):
    """What the inspector said of one surface. Richer than pass or fail; only the first two free anything."""

    PASSED = "passed"
    SMALL_ITEMS = "passed, small items on my honour"
    SEEN_NEXT = "seen at the next visit"
    PART_PASSED = "part passed"
    FAILED = "failed"
    NOT_LOOKED_AT = "not looked at"


class ResultState(StrEnum):
    """Only a current result counts. Replaced: my mistake. Withdrawn: theirs."""

    CURRENT = "current"
    REPLACED = "replaced"
    WITHDRAWN = "withdrawn"


class Outcome(StrEnum):
    """How a visit went."""

    PLANNED = "planned"
    ASKED = "asked"
    CAME = "came"
    NOT_READY = "not ready"
    NO_ENTRY = "no entry"
    CANCELLED = "cancelled"


class ClearsBy(StrEnum):
    """How a correction gets cleared."""

    OWN_WORD = "own word"
    PICTURE = "picture sent"
    REVISIT = "re-visit"


class CorrectionForm(StrEnum):
    WRITTEN = "written"
    SAID = "said, not written"


class CorrectionState(StrEnum):
    """Done is not cleared: a re-visit or an answer may still be owed."""

    OPEN = "open"
    DONE = "done, to be seen"
    SENT = "done, picture sent, no answer yet"
    CLEARED = "cleared"


class Evidence(StrEnum):
    """What a result rests on. Until a card, slip or notice is attached it is `my note`."""

    MY_NOTE = "my note"
    THEIR_WORD = "their word"
    CARD = "card signed"
    NOTICE = "notice"
    SLIP = "slip"
    LETTER = "letter"


class ClockKind(StrEnum):
    """How a permit can run out."""

    START = "not started"
    IDLE = "no approved visit"
    FIXED = "fixed life"


class Span(StrEnum):
    """What a rule for lapsing counts in."""

    DAYS = "days"
    MONTHS = "months"


class AdviceForm(StrEnum):
    SAID = "said, not written"
    WRITTEN = "written message"
    PRINT = "said, then found in print"


class CheckState(StrEnum):
    """What the builder's own look at one point said."""

    FINE = "fine"
    TO_DO = "to do"
    NOT_HERE = "does not apply"


class CheckUse(StrEnum):
    """What a point on a list is for."""

    READY = "readiness"
    SELF_CHECK = "self-check"


class ChangeAnswer(StrEnum):
    """What was said to a change from what was approved."""

    NONE = "no answer yet"
    AGREED = "agreed"
    AGREED_WITH_CONDITIONS = "agreed with conditions"
    NOT_NEEDED = "no approval needed"
    REFUSED = "refused"
