"""What the text was taken from, kept beside it, so that a later change of the record shows."""

import json
from collections.abc import Iterable

from webapp.episodes.rules.drafting import COMING, HOURS, QUESTIONS, SPEND, STOPS, FactRef, Sentence

_MOVES_ON = {STOPS, COMING, HOURS, SPEND, QUESTIONS}
"""sections that change every day by themselves: no reason to doubt what was taken over"""


def sentences_to_text(sentences: Iterable[Sentence]) -> str:
    """JSON for the column that keeps them."""
    kept = [
        [each.text_md, each.section, [[fact.label, fact.detail, fact.href, fact.line] for fact in each.facts]]
        for each in sentences
    ]
    return json.dumps(kept, ensure_ascii=False)


def sentences_from_text(kept: str) -> tuple[Sentence, ...]:
    return tuple(
        Sentence(text, section, tuple(FactRef(*fact) for fact in facts))
        for text, section, facts in json.loads(kept or "[]")
    )


def new_since(taken: Iterable[Sentence], now: Iterable[Sentence]) -> frozenset[str]:
    """Sentences of the draft that were not there when the text was taken over."""
    known = {each.text_md for each in taken}
    return frozenset(each.text_md for each in now if each.text_md not in known)


def no_longer_so(taken: Iterable[Sentence], now: Iterable[Sentence]) -> tuple[str, ...]:
    """Sentences taken over that the record would not say any more. A list that only grew is still so."""
    said = [each.text_md for each in now]
    facts = {(fact.label, fact.detail) for each in now for fact in each.facts}
    return tuple(
        each.text_md
        for each in taken
        if each.section not in _MOVES_ON
        and each.text_md not in said
        and not {(fact.label, fact.detail) for fact in each.facts} <= facts
    )
