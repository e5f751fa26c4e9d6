"""The builder's own words for the few general words of the trade that differ from place to place.

A text says `own("inspection")`; what is put on a page is what this builder calls it. Until then the word stands between
two marks of the private use area (Unicode 23.5), so that rules and stores stay free of whose words they are.
"""

import re
from collections.abc import Sequence

GENERAL = (("inspection", "inspections"), ("rough-in", "rough-ins"), ("board", "boards"), ("permit", "permits"))
"""Studbay's own words, one and many"""

OwnWords = Sequence[tuple[str, str]]
"""(Studbay's word, what this builder says for it), one and many apart"""

_OPEN, _SHUT = "\ue000", "\ue001"
_ARTICLE = re.compile(r"\b([Aa])n? $")
_LONGEST_ARTICLE = 4
"""letters to look back: the article, its space, and what stands before it"""
_KNOWN = {word for pair in GENERAL for word in pair}


def own(word: str) -> str:
    """`word` marked to be said in the builder's own way; a capital at its start is kept.

    Raises KeyError for a word that no builder can change.
    """
    if word.lower() not in _KNOWN:
        raise KeyError(word)
    return f"{_OPEN}{word}{_SHUT}"


def spoken(text: str, words: OwnWords = ()) -> str:
    """`text` with each marked word as this builder says it, and "a" or "an" before it to suit."""
    first, *marked = text.split(_OPEN)
    said, pieces = dict(words), [first]
    for piece in marked:
        word, _, rest = piece.partition(_SHUT)
        shown = said.get(word.lower(), word.lower())
        if article := _ARTICLE.search(pieces[-1][-_LONGEST_ARTICLE:]):
            suits = f"{article[1]}{'n' if shown[:1].lower() in 'aeiou' else ''} "
            pieces[-1] = f"{pieces[-1][: -len(article[0])]}{suits}"
        pieces += [f"{shown[:1].upper()}{shown[1:]}" if word[:1].isupper() else shown, rest]
    return "".join(pieces)
