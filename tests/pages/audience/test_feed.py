"""The Atom feed, held against RFC 4287 and read by a feed reader."""

from datetime import UTC, datetime, timedelta
from xml.etree import ElementTree as ET

import feedparser
import pytest

from tests.pages.audience.test_public import AT, a_snapshot
from webapp.audience import actions

ATOM = "{http://www.w3.org/2005/Atom}"
FEED = "/watch/bindery/feed.xml"


@pytest.fixture
def two_out(database, settings):
    with database.writing() as session:
        for number in (1, 2):
            text = "It **held** & <stood>. [Handout](https://county.example/a?b=1&c=2)"
            actions.put_up(
                session, settings.photos, a_snapshot(number, text_md=text, title=f"Story {number} & <more>"), AT
            )


def tree(answer) -> ET.Element:
    return ET.fromstring(answer.content)


def one(parent: ET.Element, name: str) -> ET.Element:
    found = parent.findall(f"{ATOM}{name}")
    assert len(found) == 1, f"{name}: {len(found)} of them"
    return found[0]


def is_rfc3339(text: str | None) -> bool:
    """RFC 4287, 3.3: upper-case T and Z."""
    return datetime.strptime(text or "", "%Y-%m-%dT%H:%M:%SZ").replace(tzinfo=UTC) > datetime(2000, 1, 1, tzinfo=UTC)


def linked(parent: ET.Element, rel: str) -> list[str]:
    return [link.attrib["href"] for link in parent.findall(f"{ATOM}link") if link.attrib.get("rel") == rel]


def test_a_feed_reader_finds_nothing_wrong(stranger, two_out):
    answer = stranger.get(FEED)
    assert answer.headers["content-type"].startswith("application/atom+xml")  # RFC 4287, 7
    read = feedparser.parse(answer.content, response_headers={"content-type": answer.headers["content-type"]})
    assert not read.bozo, read.get("bozo_exception")
    assert read.version == "atom10"
    assert [entry.title for entry in read.entries] == ["Episode 2: Story 2 & <more>", "Episode 1: Story 1 & <more>"]
    assert "<strong>held</strong> &amp; &lt;stood&gt;" in read.entries[0].content[0].value


def test_the_feed_has_what_4_1_1_asks_for(stranger, two_out):
    feed = tree(stranger.get(FEED))
    assert feed.tag == f"{ATOM}feed"
    assert (one(feed, "id").text or "").startswith("urn:uuid:")  # 4.2.6: an IRI that never changes
    assert one(feed, "title").text == "Bindery"
    assert is_rfc3339(one(feed, "updated").text)
    assert one(one(feed, "author"), "name").text == "the builder"  # an author, for its entries
    assert linked(feed, "self") == [f"http://127.0.0.1{FEED}"]  # SHOULD contain one
    assert linked(feed, "alternate") == ["http://127.0.0.1/watch/bindery"]  # at most one per type and language


def test_each_entry_has_what_4_1_2_asks_for(stranger, two_out):
    feed = tree(stranger.get(FEED))
    entries = feed.findall(f"{ATOM}entry")
    ids = [one(entry, "id").text or "" for entry in entries]
    assert len(set(ids)) == 2 and all(each.startswith("urn:uuid:") for each in ids)
    for entry in entries:
        assert one(entry, "title").text
        assert is_rfc3339(one(entry, "updated").text) and is_rfc3339(one(entry, "published").text)
        assert len(linked(entry, "alternate")) == 1 and linked(entry, "alternate")[0].startswith("http://127.0.0.1/")
        content = one(entry, "content")
        assert content.attrib["type"] == "html"  # 4.1.3.3, 2: escaped text, no child elements
        assert list(content) == [] and content.text
        assert one(one(entry, "author"), "name").text == "the builder"


def test_everything_an_entry_loads_has_a_whole_address(stranger, two_out):
    for entry in feedparser.parse(stranger.get(FEED).content).entries:
        assert 'src="http://127.0.0.1/watch/pictures/' in entry.content[0].value
        assert 'src="/' not in entry.content[0].value


def test_a_correction_moves_updated_and_nothing_that_names_the_entry(stranger, database, two_out):
    before = tree(stranger.get(FEED))
    with database.writing() as session:
        later = AT + timedelta(days=1)
        actions.correct(session, "bindery", 1, "South was held.", later.date(), later)
    after = tree(stranger.get(FEED))
    old, new = (feed.findall(f"{ATOM}entry") for feed in (before, after))
    for name in ("id", "published"):
        assert [one(entry, name).text for entry in old] == [one(entry, name).text for entry in new]
    moved = [(one(was, "updated").text, one(now, "updated").text) for was, now in zip(old, new, strict=True)]
    assert moved[0][0] == moved[0][1]
    assert moved[1] == ("2026-05-16T18:00:00Z", "2026-05-17T18:00:00Z")
    assert one(after, "updated").text == "2026-05-17T18:00:00Z"
    assert one(after, "id").text == one(before, "id").text
    assert (one(new[1], "content").text or "").lstrip().startswith("<p><strong>Correction, 17 May 2026:</strong>")


def test_characters_that_break_a_feed_do_not_get_in(stranger, database, settings):
    with database.writing() as session:
        broken = a_snapshot(title="A\x0bB", text_md="C\x00D\x1f ]]> &nbsp; <![CDATA[", build="E\x08F")
        actions.put_up(session, settings.photos, broken, AT)
    read = feedparser.parse(stranger.get(FEED).content)
    assert not read.bozo and read.entries[0].title == "Episode 1: AB" and read.feed.title == "EF"
