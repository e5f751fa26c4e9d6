"""Words: counts, lists and addresses in plain English."""

import re
import unicodedata
from collections.abc import Sequence

from webapp.values.typed import plain_text

LONGEST_SLUG = 80

_LETTERS = str.maketrans({"ß": "ss", "ø": "o", "æ": "ae", "œ": "oe", "đ": "d", "ð": "d", "þ": "th", "ł": "l", "ı": "i"})


def plural(n: int, one: str, many: str | None = None) -> str:
    """`1 picture`, `2 pictures`, `0 pictures`. Give `many` where the ending is not a regular one."""
    return f"{n} {one if n == 1 else many or _many(one)}"


def _many(one: str) -> str:
    if re.search(r"[^aeiou]y$", one):
        return f"{one[:-1]}ies"
    return f"{one}es" if re.search(r"(s|x|z|ch|sh)$", one) else f"{one}s"


def join_words(words: Sequence[str]) -> str:
    """`a`, `a and b`, `a, b and c`; nothing for no words."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"


def capital(sentence: str) -> str:
    """The sentence with a capital first; the rest as it is typed."""
    return f"{sentence[:1].upper()}{sentence[1:]}"


def sentence_list(sentences: Sequence[str]) -> str:
    """One sentence out of several: parted by semicolons, a capital first, one full stop at the end."""
    joined = "; ".join(part for sentence in sentences if (part := sentence.strip().rstrip(".")))
    return f"{capital(joined)}." if joined else ""


def plain_slug(text: str) -> str:
    """Lower-case ASCII letters, digits and single hyphens for an address.

    Empty when `text` has no Latin letter or digit, so the caller needs a number beside it.
    """
    letters = unicodedata.normalize("NFKD", plain_text(text).translate(_LETTERS).replace("'", ""))
    kept = "".join(char for char in letters if not unicodedata.combining(char))
    return re.sub(r"[^a-z0-9]+", "-", kept).strip("-")[:LONGEST_SLUG].rstrip("-")
