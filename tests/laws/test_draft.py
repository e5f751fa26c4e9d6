"""Laws of the draft: no sentence without a fact, nothing said that no fact says, money only when shown."""

import re
from dataclasses import replace
from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from webapp.audience.rules.text import to_html
from webapp.episodes.rules.drafting import INSPECTOR, SECTIONS, as_markdown, draft
from webapp.episodes.rules.facts import DoneTask, Hours, Line, PutRight, SeenResult, SpanFacts, Spent
from webapp.inspections.rules.kinds import ResultKind
from webapp.values.dates import show_date

FIRST, LAST = date(2026, 5, 1), date(2026, 5, 16)
days = st.dates(FIRST, LAST)
words = st.text(min_size=1, max_size=40).filter(lambda text: text.strip())
href = st.just("/builds/bindery/x")
done = st.builds(DoneTask, words, words, days, href)
results = st.builds(
    SeenResult, words, words | st.just(""), st.sampled_from([kind.value for kind in ResultKind]), days, words,
    st.sampled_from(["my note", "card signed"]), st.booleans(), href,
)  # fmt: skip
corrections = st.builds(
    PutRight, st.integers(1, 40), words, words, st.booleans(), days, st.none() | days,
    st.sampled_from(["", "me", "the inspector"]), st.none() | days, href,
)  # fmt: skip
lines = st.lists(st.builds(Line, words, words, href), max_size=4).map(tuple)
minutes = st.integers(0, 10_000)
spans = st.builds(
    SpanFacts,
    st.just(FIRST),
    st.just(LAST),
    st.lists(done, max_size=5).map(tuple),
    st.lists(results, max_size=5).map(tuple),
    st.lists(corrections, max_size=4).map(tuple),
    lines,
    words,
    lines,
    st.builds(Hours, st.integers(0, 20), minutes, minutes, minutes, minutes, href),
    st.builds(Spent, st.integers(-10_000_000, 10_000_000), st.integers(0, 40), st.just("USD"), href),
    questions=st.lists(words, max_size=3).map(tuple),
    show_hours=st.booleans(),
    show_spend=st.sampled_from(["hidden", "rounded", "exact"]),
)


@given(spans)
def test_no_sentence_stands_without_a_fact_that_leads_somewhere(facts):
    for sentence in draft(facts):
        assert sentence.facts
        assert all(fact.label and fact.href for fact in sentence.facts)
        assert sentence.section in SECTIONS


@given(spans)
def test_every_day_that_is_said_lies_in_the_span(facts):
    allowed = {show_date(FIRST + timedelta(days=n)) for n in range((LAST - FIRST).days + 1)}
    only_days = replace(facts, done=(), stops=(), coming=(), questions=(), next_phase="")
    for sentence in draft(only_days):
        assert set(re.findall(r"\b\d{1,2} May \d{4}\b", sentence.text_md)) <= allowed


@given(spans)
def test_the_word_passed_is_only_said_where_a_result_says_it(facts):
    good = {ResultKind.PASSED, ResultKind.SMALL_ITEMS, ResultKind.PART_PASSED}
    neutral = tuple(replace(each, inspection="Rough", place="", part="") for each in facts.results)
    for sentence in draft(replace(facts, results=neutral)):
        if sentence.section == INSPECTOR and "passed" in sentence.text_md.replace("not passed", ""):
            day = sentence.text_md.partition(":")[0]
            assert any(each.kind in good and show_date(each.day) == day for each in neutral)


@given(spans, spans)
def test_hidden_money_changes_no_word(facts, other):
    hidden = replace(facts, show_spend="hidden")
    assert draft(hidden) == draft(replace(hidden, spent=other.spent))


@given(spans)
def test_the_draft_is_the_same_each_time_and_renders_to_harmless_html(facts):
    sentences = draft(facts)
    assert sentences == draft(facts)
    html = to_html(as_markdown(sentences))
    assert not re.search(r"<(script|img|iframe|style|form|svg)\b", html, re.IGNORECASE)
    assert len(re.findall("<h2>", html)) == len({each.section for each in sentences})
