"""The answer for one spot: what lies within a hand's breadth of it, and what frames it, in words and drawn."""

from collections import Counter
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass

from sqlmodel import Session

from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.surfaces.pages.drawing import facts_of
from webapp.surfaces.pages.known import Known
from webapp.surfaces.pages.offsets import FROM_PICTURE
from webapp.surfaces.rules.bands import Band, doing, holds, run_name, run_noun
from webapp.surfaces.rules.beside import framing_words, opening_words
from webapp.surfaces.rules.closeup import CloseUp, close_up
from webapp.surfaces.rules.elevation import Facts, mirrored, standing
from webapp.surfaces.rules.face import Point, Run
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.near import HAND_NM, Hit, direction, gap, hits
from webapp.surfaces.rules.places import UP
from webapp.surfaces.store import ItemFacts, RunFacts, SurfaceFacts
from webapp.values.dates import show_day
from webapp.values.length import show_length
from webapp.values.words import join_words, plural

MASS = {"blocking", "flashing", "fireblock"}
"""nouns that take no article"""
NO_PROMISE = (
    "That is no promise. What was never written down is not on record, and what was may lie a little off. "
    "Use a detector, switch off, drill shallow."
)


@dataclass(frozen=True, slots=True)
class Row:
    """Something within the ring. `along` and `up` are of its centre, of a run of its nearest point."""

    name: str
    detail: str
    along: str
    up: str
    away: str
    href: str


@dataclass(frozen=True, slots=True)
class Answer:
    """`facts`: sentences of studs, openings and bands; `before`: what was there once; `behind`: on the other face."""

    heading: str
    sentence: str
    nothing: bool
    rows: tuple[Row, ...]
    facts: tuple[str, ...]
    before: tuple[Known, ...]
    behind: tuple[Known, ...]
    close_up: CloseUp
    title: str


def answer(
    session: Session, here: Here, surface: SurfaceFacts, facts: Facts, found: Sequence[Band], spot: Point
) -> Answer:
    hand, unit = HAND_NM[here.build.unit], here.build.unit
    every = hits(facts, spot)
    near = _once([hit for hit in every if hit.gap.within(hand)])
    guessed = {item.id for item in store.list_items(session, here.build.id) if item.from_picture}
    drawn = close_up(standing(facts), found, near, spot, hand)
    return Answer(
        heading=_heading(near),
        sentence=_sentence(facts, near, every, unit),
        nothing=not near,
        rows=tuple(_row(here, surface, facts, hit, spot, guessed) for hit in near),
        facts=tuple(filter(None, (framing_words(facts, spot), opening_words(facts, spot), _bands(facts, found, spot)))),
        before=_before(session, here, surface, facts, spot),
        behind=_other_face(session, here, surface, spot),
        close_up=drawn,
        title=f"{surface.name}, {show_length(drawn.shows.left, unit)} to {show_length(drawn.shows.right, unit)}",
    )


def _once(near: Iterable[Hit]) -> list[Hit]:
    """A circuit or line once, by the stretch of it that is nearest."""
    found: dict[tuple[bool, str, int], Hit] = {}
    for hit in near:
        is_run = isinstance(hit.found, Run)
        found.setdefault((is_run, hit_name(hit), 0 if is_run else hit.found.id), hit)
    return list(found.values())


def _noun(hit: Hit) -> str:
    return run_noun(hit.found) if isinstance(hit.found, Run) else hit.found.kind


def _heading(near: Iterable[Hit]) -> str:
    """`A cable and a light box`, `2 cables and blocking`; the nearest first."""
    counted = Counter(_noun(hit) for hit in near)
    if not counted:
        return "Nothing is on record here"
    words = [_counted(noun, count) for noun, count in counted.items()]
    said = join_words(words)
    return f"{said[:1].upper()}{said[1:]}"


def _counted(noun: str, count: int) -> str:
    if noun in MASS:
        return noun
    if count > 1:
        return plural(count, noun)
    return f"{'an' if noun[0] in 'aeiou' else 'a'} {noun}"


def hit_name(hit: Hit) -> str:
    """`C02 cable`, or a thing by its label."""
    return run_name(hit.found) if isinstance(hit.found, Run) else hit.found.label


def away_words(facts: Facts, hit: Hit) -> str:
    """`2″ left`, `3¾″ up and to the right`, `here`."""
    way = direction(facts.face.kind, hit.gap)
    return way if way == "here" else f"{show_length(hit.gap.distance_nm, facts.face.unit)} {way}"


def _sentence(facts: Facts, near: Sequence[Hit], every: Sequence[Hit], unit: str) -> str:
    hand = show_length(HAND_NM[unit], unit)
    if near:
        told = [f"{hit_name(hit)}: {away_words(facts, hit)}." for hit in near[:3]]
        more = f" And {plural(len(near) - 3, 'more thing')}, see below." if len(near) > 3 else ""
        return f"{' '.join(told)}{more}"
    beyond = f" The nearest is {hit_name(every[0])}, {away_words(facts, every[0])}." if every else ""
    return f"Nothing within a hand’s breadth, {hand}.{beyond} {NO_PROMISE}"


def _row(here: Here, surface: SurfaceFacts, facts: Facts, hit: Hit, spot: Point, guessed: Collection[int]) -> Row:
    """`guessed`: things that only a picture says, and no tape."""
    unit, found, base = facts.face.unit, hit.found, f"{here.base}/surfaces/{surface.code}"
    if isinstance(found, Run):
        x, y = round(spot[0] + hit.gap.dx), round(spot[1] + hit.gap.dy)
        name, detail, href = hit_name(hit), found.label, f"{base}/runs/{found.id}"
    else:
        x, y = found.x_nm, found.y_nm
        name, detail, href = found.label, f"{found.tag}, {found.kind}", f"{base}/items/{found.id}"
        detail += f", {FROM_PICTURE}" if found.id in guessed else ""
    return Row(name, detail, show_length(x, unit), show_length(y, unit), away_words(facts, hit), href)


def _bands(facts: Facts, found: Sequence[Band], spot: Point) -> str:
    """In which bands the spot lies, or how far the nearest one is."""
    said = doing(facts.face.kind).lower()
    within = list(dict.fromkeys(band.name for band in found if holds(band.box, spot)))
    if within:
        return f"The spot lies in the band of {join_words(within)}: {said}."
    if not found:
        return "No band is drawn: no run is on record on this surface."
    nearest = min(found, key=lambda band: gap(spot, band.box).squared)
    away = gap(spot, nearest.box)
    way = f"{show_length(away.distance_nm, facts.face.unit)} {direction(facts.face.kind, away)}"
    return f"It lies in no band on record; the nearest is that of {nearest.name}, {way}."


def _before(session: Session, here: Here, surface: SurfaceFacts, facts: Facts, spot: Point) -> tuple[Known, ...]:
    """What was within the ring and was moved or pulled anew: until when, and where it is now."""
    items = {item.id: item for item in store.list_items(session, here.build.id)}
    runs = {run.id: run for run in store.list_runs(session, here.build.id)}
    base, lines = f"{here.base}/surfaces/{surface.code}", []
    for hit in hits(facts, spot, replaced=True):
        if hit.gap.within(HAND_NM[here.build.unit]):
            known: ItemFacts | RunFacts
            if isinstance(hit.found, Run):
                known, href = runs[hit.found.id], f"{base}/runs/{hit.found.id}"
            else:
                known, href = items[hit.found.id], f"{base}/items/{hit.found.id}"
            until = show_day(known.replaced_on, here.today) if known.replaced_on else "some day"
            lines.append(
                Known(f"{known.label} was here until {until}", _now(session, here, surface, known, items), href)
            )
    return tuple(lines)


def _now(
    session: Session, here: Here, surface: SurfaceFacts, known: ItemFacts | RunFacts, items: dict[int, ItemFacts]
) -> str:
    if isinstance(known, RunFacts):
        return "It was pulled anew on another way." if known.replaced_by_id else "Where it went is not on record."
    new = items.get(known.replaced_by_id or 0)
    if new is None or new.x_nm is None or new.y_nm is None:
        return "Where it went is not on record."
    other = store.surface_by_id(session, here.build.id, new.surface_id)
    where = "" if other.id == surface.id else f" on {other.name}"
    unit, along = here.build.unit, show_length(new.x_nm, here.build.unit)
    up = UP[SurfaceKind(other.kind)].lower()
    return f"Moved to {along} along, {show_length(new.y_nm, unit)} {up}{where}."


def _other_face(session: Session, here: Here, surface: SurfaceFacts, spot: Point) -> tuple[Known, ...]:
    """What is on record on the other face of the same wall, seen through it; empty where they are not as long."""
    lines = []
    for other in store.list_surfaces(session, here.build.id):
        if surface.id not in {other.id, other.back_of_id} and other.id != surface.back_of_id:
            continue
        facts = facts_of(session, here, other) if other.id != surface.id else None
        if facts is None or other.length_nm != surface.length_nm:
            continue
        through, href = mirrored(facts), f"{here.base}/surfaces/{other.code}/behind"
        lines += [
            Known(f"{hit_name(hit)}: {away_words(through, hit)}", other.name, href)
            for hit in hits(through, spot)
            if hit.gap.within(HAND_NM[here.build.unit])
        ]
    return tuple(lines)
