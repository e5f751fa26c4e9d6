"""A draft out of facts. Every sentence carries the facts behind it; nothing is said that no fact says.

"Passed" is only ever said of a current result, with its day. What was put right but not seen is called not yet seen.
Names, addresses and permit numbers are not among the facts, so they cannot get into a sentence.
"""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import groupby

from webapp.episodes.rules.facts import DoneTask, PutRight, SeenResult, SpanFacts
from webapp.episodes.rules.redaction import EXACT, hours_words, spend_words
from webapp.inspections.rules.kinds import Evidence, ResultKind
from webapp.values.dates import show_date
from webapp.values.words import join_words, plural

DONE = "What was done"
INSPECTOR = "What the inspector said"
PUT_RIGHT = "Put right"
STOPS = "What stops the next phase"
COMING = "What comes next"
HOURS = "Hours"
SPEND = "Spend"
QUESTIONS = "Questions to you"
SECTIONS = (DONE, INSPECTOR, PUT_RIGHT, STOPS, COMING, HOURS, SPEND, QUESTIONS)

SO = ""
NOT_KNOWN = "hidn"
STOPPING = "stop"
"""how the line in the margin is drawn: thin, dashed, heavy"""

_MARKS = re.compile(r"([\\`*_\[\]<>#])")


@dataclass(frozen=True, slots=True)
class FactRef:
    """One fact behind a sentence and where it stands; `line` is how its margin line is drawn."""

    label: str
    detail: str
    href: str
    line: str = SO


@dataclass(frozen=True, slots=True)
class Sentence:
    """One sentence in Markdown, the section it stands in, and what it rests on."""

    text_md: str
    section: str
    facts: tuple[FactRef, ...]


def plain(words: str) -> str:
    """Typed words inside Markdown: one line, and no sign of theirs becomes a mark."""
    return _MARKS.sub(r"\\\1", " ".join(words.split()))


def _bare(words: str) -> str:
    return plain(words).rstrip(".")


def _done(facts: SpanFacts) -> Iterator[Sentence]:
    by_phase: dict[str, list[DoneTask]] = {}
    for task in facts.done:
        by_phase.setdefault(task.phase, []).append(task)
    for phase, tasks in by_phase.items():
        listed = "; ".join(_bare(task.title) for task in tasks)
        refs = tuple(FactRef(f"Done, {show_date(task.done_on)}", task.title, task.href) for task in tasks)
        yield Sentence(f"**{plain(phase)}:** {listed}.", DONE, refs)


def _said(result: SeenResult) -> str:
    """How a result goes on after "On 7 May 2026, rough electrical …"."""
    part = _bare(result.part)
    if result.paper == Evidence.THEIR_WORD and result.kind in {ResultKind.PASSED, ResultKind.SMALL_ITEMS}:
        return "passed by word of mouth; no card or report yet"
    return {
        ResultKind.PASSED: "passed",
        ResultKind.SMALL_ITEMS: "passed, with small items left to my word",
        ResultKind.SEEN_NEXT: "was not passed; it is to be seen at the next visit",
        ResultKind.PART_PASSED: f"part passed ({part})" if part else "part passed; which part is not written down",
        ResultKind.FAILED: "failed",
        ResultKind.NOT_LOOKED_AT: "was not looked at",
    }[ResultKind(result.kind)]


def _result_ref(result: SeenResult) -> FactRef:
    where = f"{result.inspection}, {result.place}" if result.place else result.inspection
    said = f"{where}: {result.kind} ({result.paper})"
    if not result.stands:
        said = f"{said}. A later visit said otherwise."
    line = SO if result.stands else NOT_KNOWN
    return FactRef(f"Result, {show_date(result.day)}", said, result.href, line)


def _inspector(facts: SpanFacts) -> Iterator[Sentence]:
    """One sentence for each inspection, day and answer, with all places that got it."""

    def same(result: SeenResult) -> tuple[object, ...]:
        return (result.day, result.inspection, result.kind, result.part, result.stands)

    for _, group in groupby(sorted(facts.results, key=lambda each: (each.day, each.inspection)), key=same):
        results = list(group)
        first = results[0]
        places = [plain(result.place) for result in results if result.place]
        where = f" ({join_words(places)})" if places else ""
        later = "" if first.stands else " A later visit said otherwise."
        text = f"{show_date(first.day)}: {plain(first.inspection)}{where} {_said(first)}.{later}"
        yield Sentence(text, INSPECTOR, tuple(_result_ref(result) for result in results))


def _seen(fact: PutRight) -> str:
    if fact.seen_by == "me":
        return " Cleared on my own word."
    if fact.seen_by:
        on = f" on {show_date(fact.seen_on)}" if fact.seen_on else ""
        return f" Seen and cleared{on}."
    return " Not yet seen by the inspector."


def _put_right(facts: SpanFacts) -> Iterator[Sentence]:
    for fact in facts.corrections:
        where = f" ({plain(fact.place)})" if fact.place else ""
        said = ", said, not written" if fact.said_only else ""
        label = f"Correction {fact.number}{said}"
        if fact.done_on is None:
            ref = FactRef(label, f"Open since {show_date(fact.written_on)}", fact.href, STOPPING)
            yield Sentence(f"Still to put right: {_bare(fact.words)}{where}.", PUT_RIGHT, (ref,))
            continue
        detail = f"Done {show_date(fact.done_on)}, {f'cleared by {fact.seen_by}' if fact.seen_by else 'not yet seen'}"
        ref = FactRef(label, detail, fact.href, SO if fact.seen_by else NOT_KNOWN)
        text = f"Put right on {show_date(fact.done_on)}: {_bare(fact.words)}{where}.{_seen(fact)}"
        yield Sentence(text, PUT_RIGHT, (ref,))


def _stops(facts: SpanFacts) -> Iterator[Sentence]:
    if not facts.stops:
        return
    what = plain(facts.next_phase) or "The next phase"
    listed = "; ".join(dict.fromkeys(_bare(line.words) for line in facts.stops))
    refs = tuple(FactRef(line.words, line.detail, line.href, STOPPING) for line in facts.stops)
    yield Sentence(f"{what} waits for: {listed}.", STOPS, refs)


def _coming(facts: SpanFacts) -> Iterator[Sentence]:
    if facts.coming:
        listed = "; ".join(_bare(line.words) for line in facts.coming)
        refs = tuple(FactRef(line.words, line.detail, line.href, NOT_KNOWN) for line in facts.coming)
        yield Sentence(f"Next: {listed}.", COMING, refs)


def _hours(facts: SpanFacts) -> Iterator[Sentence]:
    words = hours_words(facts.hours, facts.show_hours)
    if words:
        days = plural(facts.hours.days, "day")
        ref = FactRef(f"Workdays: {facts.hours.days}", ", ".join(words), facts.hours.href)
        yield Sentence(f"{join_words(words)}, on {days}.", HOURS, (ref,))


def _spend(facts: SpanFacts) -> Iterator[Sentence]:
    spent = facts.spent
    words = spend_words(spent.cents, spent.currency, facts.show_spend)
    if words:
        told = "shown exactly" if facts.show_spend == EXACT else "shown to the nearest hundred"
        verb = "Paid in this time" if spent.cents > 0 else "More came back than was paid"
        ref = FactRef(f"Spend: {plural(spent.lines, 'line')}", told, spent.href)
        yield Sentence(f"{verb}: {words}.", SPEND, (ref,))


def _questions(facts: SpanFacts) -> Iterator[Sentence]:
    for question in facts.questions:
        yield Sentence(plain(question), QUESTIONS, (FactRef("Your question", "As typed below", "#f-questions"),))


_WRITERS: Mapping[str, Callable[[SpanFacts], Iterable[Sentence]]] = {
    DONE: _done,
    INSPECTOR: _inspector,
    PUT_RIGHT: _put_right,
    STOPS: _stops,
    COMING: _coming,
    HOURS: _hours,
    SPEND: _spend,
    QUESTIONS: _questions,
}


def draft(facts: SpanFacts) -> tuple[Sentence, ...]:
    """All sentences in the order of the sections; an empty span gives none."""
    return tuple(sentence for section in SECTIONS for sentence in _WRITERS[section](facts))


def as_markdown(sentences: Iterable[Sentence]) -> str:
    """The draft as the builder takes it over: a heading for each section, a list where it has several sentences."""
    parts = []
    for section, group in groupby(sentences, key=lambda sentence: sentence.section):
        texts = [sentence.text_md for sentence in group]
        body = texts[0] if len(texts) == 1 else "\n".join(f"- {text}" for text in texts)
        parts.append(f"## {section}\n\n{body}\n")
    return "\n".join(parts)
