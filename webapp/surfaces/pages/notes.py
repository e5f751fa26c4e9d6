"""What is not drawn to its end on a line, said as plain notes: facts of the record, never a judgement of the work."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from webapp.plan.guard import Here
from webapp.surfaces.pages.lines import Net
from webapp.surfaces.rules.ways import Part, Piece, gaps
from webapp.surfaces.store import ItemFacts, RunFacts
from webapp.values.words import plural


@dataclass(frozen=True, slots=True)
class Note:
    """A sentence and where it is settled."""

    sentence: str
    detail: str
    href: str


def notes_of(
    here: Here,
    net: Net,
    own: Sequence[ItemFacts],
    runs: Sequence[RunFacts],
    items: Mapping[int, ItemFacts],
    found: Sequence[Piece],
    parts: Sequence[Part],
) -> tuple[Note, ...]:
    """`found` and `parts`: the pieces of its `runs` and how they hang together. Nothing while no run is drawn."""
    if not runs:
        return ()
    by_id = {run.id: run for run in runs}
    notes = [*_unreached(here, net, own, found), *_loose(here, net, by_id, items, found)]
    sizes = {one.id: (one.length_nm, one.height_nm) for one in net.surfaces.values()}
    for number in gaps(runs, sizes):
        surface = net.surfaces[by_id[number].surface_id]
        sentence = f"A run on {surface.name} goes on elsewhere before it meets the edge."
        notes.append(Note(sentence, by_id[number].label, _run_href(here, net, by_id[number])))
    if len(parts) > 1:
        apart = f"It is drawn in {plural(len(parts), 'part')} that no run joins."
        notes.append(Note(apart, "Each part of its way stands by itself below.", "#way"))
    return tuple(notes)


def _run_href(here: Here, net: Net, run: RunFacts) -> str:
    return f"{here.base}/surfaces/{net.surfaces[run.surface_id].code}/runs/{run.id}"


def _unreached(here: Here, net: Net, own: Sequence[ItemFacts], found: Sequence[Piece]) -> Iterator[Note]:
    reached = {end for piece in found for end in (piece.begins, piece.ends)}
    for item in own:
        if item.is_box and item.id not in reached:
            surface = net.surfaces[item.surface_id]
            href = f"{here.base}/surfaces/{surface.code}/items/{item.id}"
            yield Note("No run is drawn to this box.", f"{item.label}, {surface.name}", href)


def _loose(
    here: Here, net: Net, runs: Mapping[int, RunFacts], items: Mapping[int, ItemFacts], found: Sequence[Piece]
) -> Iterator[Note]:
    for piece in found:
        first, last = runs[piece.stretches[0]], runs[piece.stretches[-1]]
        for end, run, verb in ((piece.begins, first, "begins"), (piece.ends, last, "ends")):
            surface, href = net.surfaces[run.surface_id].name, _run_href(here, net, run)
            if end is None:
                yield Note(f"A run on {surface} {verb} at nothing on record.", run.label, href)
            elif items[end].replaced_on is not None:
                moved = f"A run on {surface} {verb} at something that was moved since: “{items[end].label}”."
                yield Note(moved, run.label, href)
