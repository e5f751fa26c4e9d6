"""What is handed down when an episode goes out: plain values and bytes, no key into any private table."""

import json
from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class Caution:
    """The usual caution for work that is shown, frozen with the episode."""

    heading: str
    sentences: tuple[str, ...]
    source: str


@dataclass(frozen=True, slots=True)
class SentPicture:
    """A picture chosen for the public, encoded anew in two sizes. Width and height are the larger one's, in pixels."""

    large: bytes
    small: bytes
    width: int
    height: int
    caption: str
    alt: str


@dataclass(frozen=True, slots=True)
class Snapshot:
    """One episode as it goes out. `text_md` is Markdown."""

    slug: str
    build: str
    number: int
    title: str
    from_day: date
    to_day: date
    text_md: str
    author: str
    cautions: tuple[Caution, ...] = ()
    pictures: tuple[SentPicture, ...] = ()


def cautions_to_text(cautions: tuple[Caution, ...]) -> str:
    """JSON for the column that keeps them."""
    return json.dumps([[each.heading, list(each.sentences), each.source] for each in cautions], ensure_ascii=False)


def cautions_from_text(kept: str) -> tuple[Caution, ...]:
    return tuple(Caution(heading, tuple(sentences), source) for heading, sentences, source in json.loads(kept))
