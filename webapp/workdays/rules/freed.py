"""What a day freed, carried in the address of its page, so that a reload still says it."""

import re
from collections.abc import Iterable

_KEY = re.compile(r"(?:task|cover):[1-9]\d{0,9}", re.ASCII)
MOST = 40
"""no single day frees more; an address has an end"""


def in_address(keys: Iterable[str]) -> str:
    """`task:12,cover:3`."""
    return ",".join(tuple(keys)[:MOST])


def from_address(text: str) -> tuple[str, ...]:
    """Keys of tasks and covers, each once; whatever else stands there is passed over."""
    return tuple(dict.fromkeys(part for part in text.split(",")[:MOST] if _KEY.fullmatch(part)))
