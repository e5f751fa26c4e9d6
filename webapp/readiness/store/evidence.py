"""What an answer about a surface rests on: who passed what and when, and what was let go with which reason."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from webapp.inspections.rules.corrections import clearing
from webapp.inspections.rules.facts import InspectionFacts
from webapp.inspections.rules.kinds import ResultKind
from webapp.inspections.rules.results import Standing
from webapp.readiness.store.site import Site
from webapp.surfaces.store import LiftedFacts


@dataclass(frozen=True, slots=True)
class Proof:
    """One settled thing: what, who said so, when (None where it was not dated), and where to read it."""

    what: str
    who: str
    day: date | None
    href: str
    paper: str = ""
    """SHA-256 of the picture of the card or notice, empty while there is none"""


def _passed(site: Site, surface_id: int) -> Iterator[tuple[InspectionFacts, Standing]]:
    """Inspections that passed on this surface, or on the whole building where that holds its closing."""
    for inspection in site.record.inspections:
        if surface_id in inspection.surface_ids or (not inspection.surface_ids and inspection.holds_cover):
            place = surface_id if surface_id in inspection.surface_ids else None
            found = site.record.standings[inspection.id][place]
            if found.passed and not site.record.unseen(inspection, surface_id):
                yield inspection, found


def _inspection_proof(site: Site, inspection: InspectionFacts, found: Standing) -> Proof:
    small = ", small items on my honour" if found.kind == ResultKind.SMALL_ITEMS else ""
    href = f"{site.build.base}/results/{found.result_id}"
    return Proof(f"{inspection.name} passed{small}", found.by, found.day, href, found.photo)


def inspection_proofs(site: Site, surface_id: int) -> Iterator[Proof]:
    for inspection, found in _passed(site, surface_id):
        yield _inspection_proof(site, inspection, found)


def own_proofs(site: Site, surface_id: int) -> Iterator[Proof]:
    record, base = site.record, site.build.base
    for one in record.corrections:
        cleared = clearing(one, record.results_of.get(one.inspection_id, ()))
        if one.surface_id == surface_id and cleared:
            yield Proof(one.words, cleared.by, cleared.on, f"{base}/corrections/{one.id}")
    for question in record.questions:
        if question.surface_id == surface_id and question.settled_on:
            words = f"Question answered: {question.words}"
            yield Proof(words, question.answer, question.settled_on, f"{base}/questions/{question.id}")
    surface = record.surface[surface_id]
    slots = [slot for slot in record.slots if slot.surface_id == surface_id]
    if slots:
        there = [slot for slot in slots if slot.settled]
        last = max((slot.settled_on for slot in there if slot.settled_on), default=None)
        said = sum(slot.by_my_word for slot in there)
        who = f"me; {said} dated by my word" if said else "me"
        yield Proof(f"Pictures {len(there)} of {len(slots)}", who, last, f"{base}/surfaces/{surface.code}")
    if surface.boxes_before is not None:
        yield Proof(f"Boxes counted: {surface.boxes_before}", "me", None, f"{base}/surfaces/{surface.code}")


def proofs(site: Site, surface_id: int) -> tuple[Proof, ...]:
    """Everything the answer rests on: the authority's first."""
    return (*inspection_proofs(site, surface_id), *own_proofs(site, surface_id))


def last_seen(site: Site, surface_id: int) -> Proof | None:
    """The last visit that passed something of this surface which its closing waits for; None while none did."""
    seen = [pair for pair in _passed(site, surface_id) if pair[0].holds_cover]
    last = max(seen, key=lambda pair: pair[1].day or date.min, default=None)
    return _inspection_proof(site, *last) if last else None


def let_go(site: Site, surface_id: int) -> tuple[LiftedFacts, ...]:
    """What was let go on this surface; these lines stay for ever."""
    return tuple(line for line in site.record.let_go if line.surface_id == surface_id)
