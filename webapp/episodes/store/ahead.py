"""What lies ahead as of today, in plain words: what stops the next phase and what can be done next."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.episodes.rules.facts import Line
from webapp.plan.store import BuildFacts
from webapp.readiness import store as readiness
from webapp.readiness.rules.answers import number_word
from webapp.readiness.rules.nodes import Root, WaitsFor
from webapp.readiness.store import Site
from webapp.values.own_words import own, spoken
from webapp.values.words import join_words, plural

STOPS_TOLD = 3
"""things told of what stops the next phase; the rest is counted"""
_NOUNS = {
    "correction": "correction",
    "inspection": "visit",
    "basis": f"{own('inspection')} to be named",
    "asked": "thing asked for",
    "question": "question",
    "task": "task",
    "count": "count of boxes",
    "picture": "picture",
    "shot": "shot",
}
_SEVERAL = {"basis": f"{own('inspections')} to be named", "asked": "things asked for", "count": "counts of boxes"}
COMING_TOLD = 3


@dataclass(frozen=True, slots=True)
class Ahead:
    next_phase: str
    stops: tuple[Line, ...]
    coming: tuple[Line, ...]


def _words(root: Root) -> str:
    """A fee is told without its amount: money is only ever shown where the builder allows it."""
    title = "a fee to pay" if root.node.kind == "fee" else root.node.title
    return f"{title} (drying)" if root.waits_for is WaitsFor.DRYING else title


def _of_one(roots: Sequence[Root]) -> str:
    """ "one correction, two pictures and one shot" """
    counts = Counter(root.node.kind for root in roots)
    told = [
        (counts[kind], plural(counts[kind], noun, _SEVERAL.get(kind))) for kind, noun in _NOUNS.items() if counts[kind]
    ]
    return join_words([f"{number_word(count)} {words.partition(' ')[2]}" for count, words in told])


def _told(found: Site, roots: Iterable[Root]) -> Iterator[tuple[Line, int]]:
    """What stops it as viewers are told it, with how many things each line stands for: all of one surface together."""
    together: dict[str, list[Root]] = {}
    for root in roots:
        gathered = root.node.kind in _NOUNS and len(root.node.surface_ids) == 1 and root.until is None
        together.setdefault(f"surface {root.node.surface_ids[0]}" if gathered else root.node.key, []).append(root)
    for place, group in together.items():
        first = group[0].node
        if place == first.key:
            yield (
                Line(
                    spoken(_words(group[0]), found.build.words),
                    f"Waits for: {group[0].waits_for.value}",
                    first.href or found.build.base,
                ),
                len(group),
            )
            continue
        surface = found.record.surface[first.surface_ids[0]]
        whom = join_words(list(dict.fromkeys(root.waits_for.value for root in group)))
        href = f"{found.build.base}/surfaces/{surface.code}/before-cover"
        several = spoken(f"{surface.name}: {_of_one(group)}", found.build.words)
        yield Line(several, f"Waits for: {whom}", href), len(group)


def _stops(found: Site, phase_id: int) -> tuple[Line, ...]:
    own = readiness.left_of_phase(found, phase_id)
    told = list(_told(found, readiness.roots_from_outside(found, own, own)))
    lines = tuple(line for line, _ in told[:STOPS_TOLD])
    rest = sum(count for _, count in told[STOPS_TOLD:])
    if not rest:
        return lines
    href = f"{found.build.base}/what-stops?phase={phase_id}"
    return *lines, Line(f"and {number_word(rest)} more", f"{rest} more on the whole list", href)


def ahead(session: Session, build: BuildFacts, today: date) -> Ahead:
    """What stops the phase that is held up next, surface by surface, and the first tasks that can start."""
    found = readiness.site(session, build, today)
    phase_id = readiness.first_held_phase(found)
    title = next((phase.title for phase in found.record.phases if phase.id == phase_id), "")
    nodes = sorted(found.network.startable(), key=lambda node: (not node.started, node.rank))[:COMING_TOLD]
    coming = tuple(
        Line(node.title, "Under way" if node.started else "Can start now", node.href or build.base) for node in nodes
    )
    return Ahead(title, _stops(found, phase_id) if phase_id is not None else (), coming)
