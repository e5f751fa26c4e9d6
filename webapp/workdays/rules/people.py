"""Who helps, by the name used on site. A name is private until its owner said yes."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

LONGEST_NAME = 80
_BETWEEN = re.compile(r"\s*(?:[,;\n]|\band\b|&)\s*")


@dataclass(frozen=True, slots=True)
class PersonFacts:
    """`days`: on how many day notes they are named. `said_yes_on`: None while they did not say yes."""

    id: int
    name: str
    said_yes_on: date | None
    days: int


def names_of(typed: str) -> tuple[str, ...]:
    """`Sam, Kim and Lee` are three; each once."""
    return tuple(dict.fromkeys(name for part in _BETWEEN.split(typed) if (name := " ".join(part.split()))))


def _stands_in(name: str, text: str) -> bool:
    return re.search(rf"(?<!\w){re.escape(name)}(?!\w)", text) is not None


def named_in(names: Iterable[str], text: str) -> tuple[str, ...]:
    """Names that stand in the text as they were written down. What begins small, such as a neighbour, is no name."""
    return tuple(name for name in names if name[:1].isupper() and _stands_in(name, text))


def perhaps_named_in(names: Iterable[str], text: str) -> tuple[str, ...]:
    """First words of longer names that stand in the text: perhaps they, perhaps somebody else."""
    firsts = {name: name.split()[0] for name in names if " " in name and name[:1].isupper()}
    return tuple(first for name, first in firsts.items() if not _stands_in(name, text) and _stands_in(first, text))
