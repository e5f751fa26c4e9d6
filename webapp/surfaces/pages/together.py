"""Several pictures put right in one go: which are meant, and what can be said of all of them."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.photos.actions import Shifted
from webapp.photos.pages import Picture, picture
from webapp.photos.rules.shifting import said_taken, show_shift
from webapp.photos.store import PhotoFacts, get_photo, list_photos, list_together
from webapp.plan.guard import Here
from webapp.plan.store import list_tasks
from webapp.surfaces import store
from webapp.surfaces.actions import Staged
from webapp.surfaces.pages.choosing import Choice, Places, places_of
from webapp.surfaces.pages.taking import read_ids
from webapp.surfaces.store import SlotFacts
from webapp.values.dates import show_short_day
from webapp.values.words import join_words, plural

MOST = 200
"""pictures in one set: more cannot be looked over"""
STAGES = {"before": "before insulation", "after": "after insulation", "general": "neither before nor after insulation"}


@dataclass(frozen=True, slots=True)
class Asked:
    """Which pictures an address asks for: ticked, of a day, that came with one, of one shift."""

    photo: tuple[int, ...] = ()
    came: str = ""
    day: str = ""
    came_with: int = 0
    back: str = ""


@dataclass(frozen=True, slots=True)
class Ticked:
    """A picture of the set, by its number there; `words`: what it shows, or where."""

    number: int
    picture: Picture
    words: str
    ticked: bool


@dataclass(frozen=True, slots=True)
class SetPage:
    """`came`: the ids, to come back with; `back`: the word by which the shift just made is taken back."""

    sheet: Sheet
    heading: str
    shown: tuple[Ticked, ...]
    left_out: int
    form: FormState
    anchors: tuple[Choice, ...]
    surfaces: tuple[Choice, ...]
    came: str
    back: str
    back_count: int
    action: str
    all: str
    further: tuple[tuple[str, str], ...]


def ids_asked(session: Session, here: Here, asked: Asked) -> tuple[int, ...]:
    """Ids of this build's pictures; what is not of it is passed over."""
    build_id = here.build.id
    if asked.back:
        wanted: Iterable[int] = (change.photo_id for change in list_together(session, asked.back))
    elif asked.came_with:
        return store.ids_that_came_with(session, build_id, get_photo(session, asked.came_with))
    elif asked.day:
        day = _day(asked.day)
        return store.ids_of_day(session, build_id, day) if day else ()
    else:
        wanted = (*asked.photo, *read_ids(asked.came))
    wanted = tuple(dict.fromkeys(wanted))
    own = {place.photo_id for place in store.places_of_photos(session, build_id, wanted)}
    return tuple(photo_id for photo_id in wanted if photo_id in own)


def _day(text: str) -> date | None:
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None


def photos_of(session: Session, ids: Sequence[int]) -> tuple[PhotoFacts, ...]:
    """In the order they were taken; those of unknown time last, as they came."""
    found = list_photos(session, ids)
    return tuple(sorted(found, key=lambda one: (one.taken_at is None, one.taken_at or "", one.received_at, one.id)))


def set_page(
    session: Session, here: Here, ids: Sequence[int], back: str = "", form: FormState | None = None
) -> SetPage:
    photos = photos_of(session, ids[:MOST])
    places = places_of(session, here, (photo.id for photo in photos))
    ticked = {int(one) for one in form.values("photo") if one.isdecimal()} if form else set(ids)
    words = _words(photos, places)
    shown = tuple(
        Ticked(number, picture(photo, words[photo.id]), words[photo.id], photo.id in ticked)
        for number, photo in enumerate(photos, 1)
    )
    base = f"{here.base}/pictures"
    return SetPage(
        sheet=here.sheet("W4", "Pictures", "Pictures together"),
        heading=f"{plural(len(shown), 'picture')} together" if len(shown) > 1 else "Pictures together",
        shown=shown,
        left_out=max(0, len(ids) - MOST),
        form=form or FormState(),
        anchors=(
            ("", "none"),
            *((str(one.picture.id), f"{one.number}: {one.picture.taken}") for one in shown if _dated(one)),
        ),
        surfaces=(("", "choose a surface"), *((one.code, one.name) for one in places.surfaces)),
        came=".".join(str(photo.id) for photo in photos),
        back=back,
        back_count=_to_take_back(session, photos, back),
        action=f"{base}/set",
        all=base,
        further=_further(session, here, photos, base),
    )


def _dated(one: Ticked) -> bool:
    return one.picture.taken != "date unknown"


def _words(photos: Iterable[PhotoFacts], places: Places) -> dict[int, str]:
    """Where each picture is, by the short names of surfaces, and its stage."""
    said = {}
    for photo in photos:
        own = [place for place in places.places if place.photo_id == photo.id and place.surface_id is not None]
        codes = dict.fromkeys(places.surface_name(place.surface_id) for place in own)
        stages = dict.fromkeys(STAGES[place.stage] for place in own if place.stage in {"before", "after"})
        said[photo.id] = ", ".join((*codes, *stages)) or "no surface yet"
    return said


def _to_take_back(session: Session, photos: Iterable[PhotoFacts], together: str) -> int:
    """How many of these still have the time that was given in that go."""
    if not together:
        return 0
    now = {photo.id: said_taken(photo.taken_at, photo.taken_from) for photo in photos}
    return sum(change.became == now.get(change.photo_id) for change in list_together(session, together))


def _further(session: Session, here: Here, photos: Sequence[PhotoFacts], base: str) -> tuple[tuple[str, str], ...]:
    """More than these: all of their day, all that came with them; only where that is more."""
    ways = []
    days = {photo.taken_at[:10] for photo in photos if photo.taken_at}
    if len(days) == 1:
        (day,) = days
        more = store.ids_of_day(session, here.build.id, date.fromisoformat(day))
        if set(more) != {photo.id for photo in photos}:
            ways.append((f"All of {show_short_day(date.fromisoformat(day), here.today)}: {len(more)}", f"?day={day}"))
    if photos:
        came = store.ids_that_came_with(session, here.build.id, photos[0])
        if set(came) > {photo.id for photo in photos}:
            ways.append((f"All that came together: {len(came)}", f"?came_with={photos[0].id}"))
    return tuple((words, f"{base}/set{query}") for words, query in ways)


def first_day(session: Session, here: Here) -> date | None:
    """The first day on which anything of the build was begun; None while nothing was."""
    days = [day for task in list_tasks(session, here.build.id) for day in (task.started_on, task.done_on) if day]
    return min(days, default=None)


def shifted_words(done: Shifted, minutes: int, before: Mapping[int, SlotFacts], after: Iterable[SlotFacts]) -> str:
    """`7 shifted, 2 have no time of their own.`, and what it did to pictures that were owed."""
    parts = [f"{done.shifted} shifted, {show_shift(minutes)}" if done.shifted else "None shifted"]
    if done.unknown:
        parts.append(f"{done.unknown} {'has' if done.unknown == 1 else 'have'} no time of {_own(done.unknown)}")
    if done.day_only:
        parts.append(f"{done.day_only} {'has' if done.day_only == 1 else 'have'} only a day, which no hour moves")
    return f"{', '.join(parts)}.{slots_words(before, after)}"


def _own(count: int) -> str:
    return "its own" if count == 1 else "their own"


def slots_words(before: Mapping[int, SlotFacts], after: Iterable[SlotFacts]) -> str:
    """Owed pictures that prove something no more, or do now; empty where nothing changed."""
    now = [slot for slot in after if slot.id in before and slot.settled != before[slot.id].settled]
    lost, won = ([f"{slot.number}" for slot in now if slot.settled is is_] for is_ in (False, True))
    said = ""
    if lost:
        said += f" {plural(len(lost), 'owed picture')} (number {join_words(lost)}) {_verb(lost)} nothing now."
    if won:
        said += f" {plural(len(won), 'owed picture')} (number {join_words(won)}) now {_verb(won)} what was open."
    return said


def _verb(of: Sequence[str]) -> str:
    return "proves" if len(of) == 1 else "prove"


def staged_words(done: Staged, stage: str) -> str:
    parts = [f"{plural(done.said, 'picture')}: {STAGES[stage]}"]
    if done.nowhere:
        parts.append(f"{done.nowhere} {'is' if done.nowhere == 1 else 'are'} of no surface yet")
    if done.held:
        parts.append(f"{done.held} {'fills' if done.held == 1 else 'fill'} an owed picture that says otherwise")
    return f"{'; '.join(parts)}."
