"""An episode as viewers would see it, its desk after it went out, and the texts it had before."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.audience import store as audience
from webapp.audience.rules.showing import CorrectionView, EpisodeView, PictureView, public_path, public_slug
from webapp.audience.rules.text import to_html
from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.episodes import actions, store
from webapp.episodes.pages.series import local, span_words
from webapp.episodes.store import ChosenPicture, KeptText
from webapp.photos.rules.names import LARGE, SMALL, fitted
from webapp.plan.guard import Here
from webapp.values.dates import show_moment


@dataclass(frozen=True, slots=True)
class AsViewersPage:
    """The public page of a draft, for the builder alone; drawn by the same template as the public one."""

    sheet: Sheet
    episodes_href: str
    feed_href: str
    episode: EpisodeView
    turns: tuple[()]
    desk_href: str


def _private_view(each: ChosenPicture) -> PictureView:
    width, height = fitted(each.width, each.height, LARGE)
    large, small = (f"/photos/{each.sha256}/{size}" for size in (LARGE, SMALL))
    return PictureView(large, small, width, height, each.caption, each.alt)


def as_viewers_page(session: Session, here: Here, number: int) -> AsViewersPage:
    episode = store.get_episode(session, here.build.id, number)
    to_day = episode.to_day or here.today
    title = f"Episode {number}: {episode.title}"
    desk = f"{here.base}/episodes/{number}"
    view = EpisodeView(
        number=number,
        title=episode.title or "No title yet",
        published_on=None,
        from_day=episode.from_day,
        to_day=to_day,
        body_html=to_html(episode.body_md),
        pictures=tuple(_private_view(each) for each in store.list_pictures(session, episode.id)),
        cautions=actions.cautions_of(session, here.build, episode.from_day, to_day),
    )
    public = audience.find_build(session, public_slug(here.build.slug))
    sheet = here.sheet(f"F2-{number}", f"Episode {number}", title)
    return AsViewersPage(sheet, public_path(public.slug) if public else desk, "", view, (), desk)


@dataclass(frozen=True, slots=True)
class PublishedPage:
    """The desk of an episode that went out: where the frozen copy is, and its dated corrections."""

    sheet: Sheet
    base: str
    heading: str
    public_href: str
    span: str
    published: str
    body_html: str
    corrections: tuple[CorrectionView, ...]
    form: FormState
    texts: tuple[KeptText, ...]


def published_page(session: Session, here: Here, number: int, state: FormState | None = None) -> PublishedPage:
    episode = store.get_episode(session, here.build.id, number)
    slug = public_slug(here.build.slug)
    frozen = audience.get_episode(session, audience.get_build(session, slug).id, number)
    return PublishedPage(
        sheet=here.sheet(f"F2-{number}", f"Episode {number}"),
        base=f"{here.base}/episodes/{number}",
        heading=f"Episode {number}: {frozen.view.title}",
        public_href=public_path(slug, number),
        span=span_words(episode.from_day, episode.to_day),
        published=show_moment(local(frozen.published_at)),
        body_html=frozen.view.body_html,
        corrections=frozen.view.latest_first,
        form=state or FormState(),
        texts=store.list_texts(session, episode.id),
    )


@dataclass(frozen=True, slots=True)
class TextsPage:
    """Every text an episode had before, the latest first."""

    sheet: Sheet
    desk_href: str
    number: int
    texts: tuple[KeptText, ...]


def texts_page(session: Session, here: Here, number: int) -> TextsPage:
    episode = store.get_episode(session, here.build.id, number)
    sheet = here.sheet(f"F2-{number}", f"Episode {number}", f"Episode {number}: earlier texts")
    return TextsPage(sheet, f"{here.base}/episodes/{number}", number, store.list_texts(session, episode.id))
