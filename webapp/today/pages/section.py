"""The section through the surface that is nearest to closing, with at most seven notes beside it."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from webapp.readiness.rules import keys
from webapp.readiness.rules.answers import CoverAnswer, count_words, cover_answer
from webapp.readiness.rules.network import Network, Unmet
from webapp.readiness.store import Site, nearest_first
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.section import SurfaceState
from webapp.surfaces.store import ItemFacts, SurfaceFacts
from webapp.today.rules.spots import MOST, Note, Said, part_of, placed
from webapp.values.dates import show_day, show_short_day
from webapp.values.own_words import own
from webapp.values.words import join_words

OWED = 5
"""notes left for hard stops; the closing itself has one, then what is settled, and wishes where there is room"""
_DRAWN_AS = {SurfaceKind.CEILING: "ceiling", SurfaceKind.FLOOR: "ceiling", SurfaceKind.TRENCH: "trench"}
_LAYER = {"ceiling": own("Board"), "trench": "Backfill", "slab": "The pour", "wall": own("Board")}
_NOT_YET = {
    "correction": "correction open",
    "inspection": "not passed yet",
    "asked": "asked, not ready",
    "task": "not done yet",
    "count": "not counted yet",
    "offsets": "not measured yet",
    "picture": "no picture yet",
    "shot": "not filmed yet",
    "basis": "no one is named",
    "permit": "not issued yet",
    "fee": "not paid yet",
}


@dataclass(frozen=True, slots=True)
class SectionView:
    """`drawn_as`: wall, ceiling, trench or slab. `services`: kinds that lie in it."""

    name: str
    count: str
    owed: bool
    drawn_as: str
    state: SurfaceState
    services: frozenset[str]
    notes: tuple[Note, ...]
    says: str
    href: str
    key: str


def _detail(network: Network, need: Unmet) -> str:
    node = need.node
    if need.drying:
        return f"until {show_day(need.until, network.today)}" if need.until else "begun on an unknown day"
    if node.kind == "question":
        return f"{node.detail.partition('.')[0].lower()} question"
    if node.kind == "inspection" and node.until:
        return f"visit {show_day(node.until, network.today)}"
    return _NOT_YET.get(node.kind, "owed")


def _title(title: str) -> str:
    """Without what the second line says: "Picture 6: drain and supply" is told as "Drain and supply"."""
    head, colon, rest = title.partition(": ")
    plain = rest if colon and head.split(" ")[0] in {"Picture", "Shot"} else title
    return f"{plain[:1].upper()}{plain[1:]}"


def _owed(network: Network, answer: CoverAnswer) -> Iterator[Said]:
    for need in (*answer.stops, *answer.wishes):
        title = need.node.title.rpartition(",")[0] if need.node.kind == "inspection" else _title(need.node.title)
        yield Said(
            title or need.node.title, _detail(network, need), "hard" if need.hard else "wish", part_of(need.node.title)
        )


def _settled(found: Site, surface_id: int) -> Iterator[Said]:
    for inspection in found.record.inspections:
        standing = found.record.standings[inspection.id].get(surface_id)
        if standing and standing.passed and standing.day:
            yield Said(
                inspection.name, f"passed {show_short_day(standing.day, found.today)}", "done", part_of(inspection.name)
            )


def _notes(found: Site, surface: SurfaceFacts, answer: CoverAnswer, drawn_as: str) -> list[Said]:
    owed, settled = list(_owed(found.network, answer)), list(_settled(found, surface.id))
    room = max(min(len(answer.stops), OWED), MOST - 1 - len(settled))
    shown, more = owed[:room], len(owed) - room
    rest = f", {more} more" if more > 0 else ""
    word = f"do not cover{rest}" if not answer.may_be_covered else f"may be covered{rest}"
    closing = Said(_LAYER[drawn_as], word, "hard" if not answer.may_be_covered else "done", "cover")
    return [*shown, *settled[: MOST - 1 - len(shown)], closing]


def _says(state: SurfaceState, services: Iterable[str], notes: Iterable[Said]) -> str:
    layers = []
    if services:
        layers.append(f"in it: {join_words(sorted(services))}")
    if state.insulated:
        layers.append("insulated")
    layers.append("seen by the inspector" if state.seen else "not yet seen by the inspector")
    told = "; ".join(f"{note.title}: {note.detail}" for note in notes)
    return f"Section, not to scale; {', '.join(layers)}. {told}."


def section_view(found: Site, items: Iterable[ItemFacts]) -> SectionView | None:
    """None while no surface is open."""
    network = found.network
    surface = next(iter(nearest_first(found)), None)
    if surface is None:
        return None
    answer, state = cover_answer(network, keys.cover(surface.id), surface.name), found.states[surface.id]
    kind = SurfaceKind(surface.kind)
    drawn_as = "slab" if kind is SurfaceKind.SLAB else _DRAWN_AS.get(kind, "wall")
    services = frozenset(one.service for one in items if one.surface_id == surface.id and one.replaced_on is None)
    notes = _notes(found, surface, answer, drawn_as)
    return SectionView(
        name=surface.name,
        count=count_words(answer),
        owed=bool(answer.stops or answer.wishes),
        drawn_as=drawn_as,
        state=state,
        services=services,
        notes=placed(notes, surface.kind),
        says=_says(state, services, notes),
        href=f"{found.build.base}/surfaces/{surface.code}/before-cover",
        key=surface.facing,
    )
