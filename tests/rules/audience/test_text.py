"""The builder's Markdown as HTML: what is allowed comes out as CommonMark says, what could hurt a viewer does not."""

import pytest
from bs4 import BeautifulSoup
from hypothesis import given
from hypothesis import strategies as st

from webapp.audience.rules.text import SUMMARY_LENGTH, TAGS, legible, summary_of, to_html


# Examples of the CommonMark specification, version 0.31.2, by the titles of their sections; written from memory.
@pytest.mark.parametrize(
    ("section", "text", "html"),
    [
        ("Emphasis and strong emphasis", "*foo bar*", "<p><em>foo bar</em></p>\n"),
        ("Emphasis and strong emphasis", "**foo bar**", "<p><strong>foo bar</strong></p>\n"),
        ("Block quotes", "> # Foo\n> bar\n> baz", "<blockquote>\n<h2>Foo</h2>\n<p>bar\nbaz</p>\n</blockquote>\n"),
        ("Lists", "- foo\n- bar\n+ baz", "<ul>\n<li>foo</li>\n<li>bar</li>\n</ul>\n<ul>\n<li>baz</li>\n</ul>\n"),
        ("Lists", "1. foo\n2. bar\n3) baz",
         '<ol>\n<li>foo</li>\n<li>bar</li>\n</ol>\n<ol start="3">\n<li>baz</li>\n</ol>\n'),
        ("Thematic breaks", "***", "<hr>\n"),
        ("Hard line breaks", "foo  \nbaz", "<p>foo<br>\nbaz</p>\n"),
    ],
)  # fmt: skip
def test_marks_mean_what_commonmark_says(section, text, html):
    assert to_html(text) == html, section


@pytest.mark.parametrize(
    "text",
    [
        "<script>alert(1)</script>",
        "<img src=x onerror=alert(1)>",
        "[here](javascript:alert(1))",
        "[here](JaVaScRiPt:alert(1))",
        "[here](data:text/html;base64,PHNjcmlwdD4=)",
        "![a picture](https://elsewhere.example/track.png)",
        "<https://ok.example> <b onclick=x>b</b>",
        "[here](vbscript:x)",
        "<iframe src=https://elsewhere.example></iframe>",
        "[a](/builds/bindery/today) [b](//elsewhere.example) [c](today)",
    ],
)
def test_nothing_that_runs_loads_or_leads_inside_comes_out(text):
    page = BeautifulSoup(to_html(text), "html.parser")
    assert {tag.name for tag in page.find_all()} <= {"p", "a"}
    for tag in page.find_all():
        assert set(tag.attrs) <= {"href", "rel"}
        assert str(tag.get("href", "https://")).startswith("https://")
        assert not str(tag.get("href", "")).startswith("//")


def test_links_outside_carry_no_recommendation_and_no_way_back():
    page = BeautifulSoup(to_html("[the handout](https://county.example/handout)"), "html.parser")
    assert page.a is not None
    assert page.a["href"] == "https://county.example/handout"
    assert set(page.a["rel"]) == {"nofollow", "noopener", "noreferrer"}


@given(st.text(max_size=300))
def test_whatever_is_typed_only_allowed_tags_come_out(text):
    page = BeautifulSoup(to_html(text), "html.parser")
    assert {tag.name for tag in page.find_all()} <= TAGS


def test_characters_that_no_feed_may_hold_are_taken_out():
    assert legible("a\x00b\x0bc\x1fd\ufffee\tf\n") == "abcde\tf\n"


def test_a_summary_is_plain_words_cut_between_two_of_them():
    assert summary_of(to_html("# Title\n\nIt **held** & stood.")) == "It held & stood."
    long = summary_of(to_html("word " * 200))
    assert len(long) <= SUMMARY_LENGTH + 2 and long.endswith("word …")
