"""The builder's Markdown as HTML that cannot hurt a viewer: raw HTML is off, then only a short list of tags stays.

Pure although it leans on two libraries: text in, text out.
"""

import html
import re
from collections.abc import Mapping

import nh3
from markdown_it import MarkdownIt

TAGS = {"a", "blockquote", "br", "code", "em", "h2", "h3", "h4", "hr", "li", "ol", "p", "pre", "strong", "ul"}
SUMMARY_LENGTH = 280
_LEVELS: Mapping[str, str] = {"h1": "h2", "h5": "h4", "h6": "h4"}
_ALLOWED_LINK = re.compile(r"https?://[^/\s]|mailto:[^\s]", re.IGNORECASE)
_NOT_IN_XML = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_MARKDOWN = MarkdownIt("commonmark", {"html": False}).disable("image")


def legible(text: str) -> str:
    """Without the control characters that XML 1.0 (fifth edition, 2.2, production 2) does not know: a feed with one
    in it cannot be read at all."""
    return _NOT_IN_XML.sub("", text)


def _keep_attribute(tag: str, name: str, value: str) -> str | None:
    """Links lead outside and nowhere else: a relative one would point into the builder's own sheets."""
    if tag == "a" and name == "href":
        return value if _ALLOWED_LINK.match(value) else None
    return value


def to_html(text_md: str) -> str:
    """Cleaned HTML. The page's own title is its only h1, so headings begin at h2; pictures in the text do not load."""
    tokens = _MARKDOWN.parse(legible(text_md))
    for token in tokens:
        token.tag = _LEVELS.get(token.tag, token.tag)
    made = _MARKDOWN.renderer.render(tokens, _MARKDOWN.options, {})
    return nh3.clean(
        made,
        tags=TAGS,
        attributes={"a": {"href"}, "ol": {"start"}},
        attribute_filter=_keep_attribute,
        url_schemes={"http", "https", "mailto"},
        link_rel="nofollow noopener noreferrer",
    )


def summary_of(body_html: str) -> str:
    """The first words of cleaned HTML as plain text, cut between words, for feed readers and lists."""
    paragraphs = re.findall(r"<p>(.*?)</p>", body_html, re.DOTALL)
    plain = html.unescape(re.sub(r"<[^>]+>", "", " ".join(paragraphs)))
    words = " ".join(plain.split())
    if len(words) <= SUMMARY_LENGTH:
        return words
    return f"{words[:SUMMARY_LENGTH].rpartition(' ')[0]} …"
