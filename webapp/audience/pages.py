"""What the public pages and the feed receive."""

from dataclasses import dataclass
from datetime import datetime

from sqlmodel import Session

from webapp.audience import store
from webapp.audience.rules.showing import EpisodeView, public_path
from webapp.audience.store import BuildLine, PublicBuildFacts, Published
from webapp.core.sheets import Sheet


@dataclass(frozen=True, slots=True)
class Frame:
    """What a public page takes from the request: the look chosen, its path, and `root` ("https://example.org")."""

    look: str
    path: str
    root: str

    def sheet(self, number: str, name: str, title: str, build: str = "") -> Sheet:
        return Sheet(number=number, name=name, title=title, build=build, look=self.look, here=self.path)


@dataclass(frozen=True, slots=True)
class WatchPage:
    """Every build that has published; it has no feed of its own."""

    sheet: Sheet
    episodes_href: str
    feed_href: str
    builds: tuple[BuildLine, ...]


@dataclass(frozen=True, slots=True)
class EpisodeLine:
    href: str
    view: EpisodeView
    summary: str


@dataclass(frozen=True, slots=True)
class BuildPage:
    """The episodes of a build, newest first. `first_href` is where somebody who comes late begins."""

    sheet: Sheet
    episodes_href: str
    feed_href: str
    about: str
    episodes: tuple[EpisodeLine, ...]
    first_href: str


@dataclass(frozen=True, slots=True)
class Turn:
    """The episode before or after."""

    words: str
    href: str


@dataclass(frozen=True, slots=True)
class EpisodePage:
    sheet: Sheet
    episodes_href: str
    feed_href: str
    episode: EpisodeView
    turns: tuple[Turn, ...]


@dataclass(frozen=True, slots=True)
class FeedEntry:
    """One `atom:entry` (RFC 4287, 4.1.2). `href` is absolute, moments are RFC 3339 text."""

    entry_id: str
    title: str
    href: str
    published: str
    updated: str
    summary: str
    author: str
    view: EpisodeView


@dataclass(frozen=True, slots=True)
class FeedPage:
    """One `atom:feed` (RFC 4287, 4.1.1)."""

    feed_id: str
    title: str
    about: str
    updated: str
    self_href: str
    href: str
    root: str
    author: str
    entries: tuple[FeedEntry, ...]


def watch_page(session: Session, frame: Frame) -> WatchPage:
    return WatchPage(frame.sheet("F2", "Episodes", "Builds to follow"), "/watch", "", store.list_builds(session))


def build_page(session: Session, frame: Frame, slug: str) -> BuildPage:
    build = store.get_build(session, slug)
    episodes = store.list_episodes(session, build.id)
    lines = tuple(EpisodeLine(public_path(slug, each.view.number), each.view, each.summary) for each in episodes)
    return BuildPage(
        sheet=frame.sheet("F2", "Episodes", "Episodes", build.name),
        episodes_href=public_path(slug),
        feed_href=f"{public_path(slug)}/feed.xml",
        about=build.what,
        episodes=lines,
        first_href=lines[-1].href if lines else "",
    )


def episode_page(session: Session, frame: Frame, slug: str, number: int) -> EpisodePage:
    build = store.get_build(session, slug)
    view = store.get_episode(session, build.id, number).view
    titles = store.list_titles(session, build.id)
    place = next(place for place, (each, _) in enumerate(titles) if each == number)
    around = (("Before", titles[place - 1] if place else None), ("Next", dict(enumerate(titles)).get(place + 1)))
    return EpisodePage(
        sheet=frame.sheet(f"F2-{number}", f"Episode {number}", f"Episode {number}: {view.title}", build.name),
        episodes_href=public_path(slug),
        feed_href=f"{public_path(slug)}/feed.xml",
        episode=view,
        turns=tuple(
            Turn(f"{word}: episode {found[0]}, {found[1]}", public_path(slug, found[0]))
            for word, found in around
            if found
        ),
    )


def _rfc3339(moment: datetime) -> str:
    """RFC 4287, 3.3: upper-case T and Z. The record's moments are UTC."""
    return moment.strftime("%Y-%m-%dT%H:%M:%SZ")


def _entry(build: PublicBuildFacts, each: Published, root: str) -> FeedEntry:
    return FeedEntry(
        entry_id=each.entry_id,
        title=f"Episode {each.view.number}: {each.view.title}",
        href=f"{root}{public_path(build.slug, each.view.number)}",
        published=_rfc3339(each.published_at),
        updated=_rfc3339(each.updated_at),
        summary=each.summary,
        author=each.author,
        view=each.view,
    )


def feed_page(session: Session, frame: Frame, slug: str) -> FeedPage:
    build = store.get_build(session, slug)
    episodes = store.list_episodes(session, build.id)
    return FeedPage(
        feed_id=build.feed_id,
        title=build.name,
        about=build.what,
        updated=_rfc3339(max(each.updated_at for each in episodes)),
        self_href=f"{frame.root}{public_path(slug)}/feed.xml",
        href=f"{frame.root}{public_path(slug)}",
        root=frame.root,
        author=episodes[0].author,
        entries=tuple(_entry(build, each, frame.root) for each in episodes),
    )
