"""Which inspection looks at which trade, told by the words in its name: common practice, no source, only a proposal.

Names are the builder's own and may be of another language or usage: then nothing fits, and the builder says it.
"""

from collections.abc import Mapping

_WORDS: Mapping[str, tuple[str, ...]] = {
    "electric": ("electr", "wiring"),
    "data": ("low volt", "data", "network"),
    "water": ("plumb", "water"),
    "drain": ("plumb", "drain", "sewer"),
    "vent": ("plumb", "drain"),
    "gas": ("gas", "plumb"),
    "air": ("mechanic", "duct"),
    "framing": ("fram", "structur"),
}
_WORK: Mapping[str, tuple[str, ...]] = {
    "electric": ("wiring",),
    "data": ("low voltage",),
    "water": ("plumbing",),
    "drain": ("plumbing",),
    "vent": ("plumbing",),
    "gas": ("gas", "plumbing"),
    "air": ("ducting",),
    "framing": ("framing",),
}


SERVICES = tuple(_WORDS)
"""what a trade's work is for"""


def looks_at(inspection: str, service: str) -> bool:
    """Whether an inspection of this name is of the trade of a service."""
    return any(word in inspection.casefold() for word in _WORDS.get(service, ()))


def is_work_of(kind: str, service: str) -> bool:
    """Whether a kind of work belongs to the trade of a service."""
    return kind in _WORK.get(service, ())
