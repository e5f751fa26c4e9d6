"""What a phone keeps of one build: the addresses of what matters at the wall, the most needed first."""

from collections.abc import Iterator
from dataclasses import dataclass

from sqlmodel import Session

from webapp.inspections.rules.kinds import Outcome
from webapp.papers.store import PaperFacts, list_papers
from webapp.photos.rules.names import SIZES
from webapp.photos.store import list_photos
from webapp.plan.rules.kinds import TaskState
from webapp.readiness.store import Site
from webapp.surfaces.store import list_places
from webapp.voice.store import list_notes

FIRST = ("today", "workdays/log", "before-cover", "what-stops", "surfaces", "said/new", "to-put-right", "papers")
LATER = ("inspections", "permits", "phases", "said", "pictures", "services", "services/panel")
LAST = ("footage", "behind", "workdays", "changes")
OF_A_SURFACE = ("", "/before-cover", "/shoot", "/drawing", "/behind", "/items/new", "/slots", "/history")
MOST_PICTURES = 500
LARGEST_FILE = 12 * 1024 * 1024
"""bytes of a paper's file or a voice note that a phone keeps; a larger one is opened with signal"""


@dataclass(frozen=True, slots=True)
class ToKeep:
    """Paths of one build: sheets, pictures in small size, files of papers and voice notes."""

    pages: tuple[str, ...]
    pictures: tuple[str, ...]
    files: tuple[str, ...]


def _pages(found: Site, papers: tuple[PaperFacts, ...]) -> Iterator[str]:
    record = found.record
    yield from FIRST
    for surface in sorted(record.surfaces, key=lambda one: one.covered_on is not None):
        yield from (f"surfaces/{surface.code}{part}" for part in OF_A_SURFACE)
        if found.states[surface.id].may_be_covered:
            yield f"surfaces/{surface.code}/cover"
        if surface.covered_on is None:
            yield f"workdays/log?surface={surface.code}"
        yield f"pictures?surface={surface.code}"
        yield f"said/new?about=surface/{surface.code}"
    for inspection in record.inspections:
        yield from (f"inspections/{inspection.code}{part}" for part in ("", "/check", "/again"))
    for visit in record.visits:
        if visit.outcome in {Outcome.PLANNED, Outcome.ASKED}:
            yield from (f"visits/{visit.id}{part}" for part in ("", "/ready", "/packet"))
    yield from (f"corrections/{one.id}" for one in record.corrections if one.cleared_on is None)
    yield from (f"questions/{one.id}" for one in record.questions if one.settled_on is None)
    yield from (f"papers/{one.code}" for one in papers)
    yield from (f"phases/{phase.id}" for phase in record.phases)
    yield from (f"tasks/{task.id}" for task in record.tasks if task.state != TaskState.DONE)
    yield from (f"permits/{permit.code}" for permit in record.permits)
    yield from (*LATER, *LAST)


def _pictures(session: Session, found: Site) -> Iterator[str]:
    """Those that belong to a surface, the last placed first; the others are nobody's evidence yet."""
    placed = [one.photo_id for one in list_places(session, found.build.id) if one.surface_id is not None]
    by_id = {photo.id: photo for photo in list_photos(session, placed)}
    chosen = dict.fromkeys(number for number in placed if by_id[number].made == "ready")
    yield from (f"/photos/{by_id[number].sha256}/{SIZES[0]}" for number in list(chosen)[:MOST_PICTURES])


def to_keep(session: Session, found: Site) -> ToKeep:
    base = found.build.base
    papers = tuple(one for one in list_papers(session, found.build.id) if one.stands)
    files = [one for one in papers if one.at_hand and one.file_sha256 and one.file_bytes <= LARGEST_FILE]
    notes = [one for one in list_notes(session, found.build.id) if one.size <= LARGEST_FILE]
    return ToKeep(
        pages=tuple(dict.fromkeys(f"{base}/{path}" for path in _pages(found, papers))),
        pictures=tuple(_pictures(session, found)),
        files=(
            *(f"{base}/papers/{one.code}/file" for one in files),
            *(f"{base}/said/{one.id}/sound" for one in notes),
        ),
    )
