"""The packet of a visit: what was chosen of permit, surfaces, drawings, pictures, tests, corrections and papers.

Nothing of the spend, of viewers or of anybody's name is read here, so nothing of it can be in a packet.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.sheets import Sheet
from webapp.inspections import store
from webapp.inspections.pages.book import Book, CorrectionLine, read_book
from webapp.inspections.pages.naming import name_things
from webapp.inspections.rules.facts import InspectionFacts, PermitFacts, VisitFacts
from webapp.inspections.rules.kinds import Outcome
from webapp.linetests.pages import TestLine, lines_of, those_on
from webapp.papers.pages import PaperLine, paper_lines
from webapp.papers.rules.kinds import AboutKind, PaperKind
from webapp.papers.rules.things import Thing, is_of
from webapp.papers.store import list_papers
from webapp.photos.pages import show_taken
from webapp.photos.store import PhotoFacts, list_photos
from webapp.plan.guard import Here
from webapp.surfaces import store as surfaces
from webapp.surfaces.pages.drawing import elevation
from webapp.surfaces.rules.drawing import Drawing
from webapp.surfaces.store import SlotFacts
from webapp.values.dates import show_date, show_long_day
from webapp.values.own_words import own

Choices = tuple[tuple[str, str], ...]
PARTS: tuple[tuple[str, str, str], ...] = (
    ("permit", f"{own('Permit')} facts", "Name, number, days"),
    ("drawings", "Drawings", "The elevation of each surface"),
    ("tests", "Tests", "Readings and hours"),
    ("corrections", "Corrections", "And how each was cleared"),
)
NOT_SENT = {PaperKind.INVOICE, PaperKind.CONSENT}
"""never ticked beforehand: amounts and names stand on them"""


@dataclass(frozen=True, slots=True)
class Chosen:
    """What the builder ticked: parts by name, surfaces and pictures by id, papers by short name."""

    parts: frozenset[str]
    places: frozenset[int]
    pictures: frozenset[int]
    papers: frozenset[str]


@dataclass(frozen=True, slots=True)
class PacketPicture:
    """A picture of an owed slot. `photo_id` is what is ticked."""

    photo_id: int
    sha256: str
    words: str
    taken: str


@dataclass(frozen=True, slots=True)
class PacketPlace:
    """One surface: where it stands in words, its drawing, its pictures by slot."""

    id: int
    code: str
    name: str
    stands: str
    drawing: Drawing | None
    note: str
    pictures: tuple[PacketPicture, ...]


@dataclass(frozen=True, slots=True)
class PacketCorrection:
    line: CorrectionLine
    pictures: tuple[tuple[str, str], ...]
    """SHA-256 and words, before and after"""


@dataclass(frozen=True, slots=True)
class Packet:
    """What is printed. `photo_at`: the address of a picture is this, its SHA-256 and `photo_end`."""

    sheet: Sheet
    title: str
    facts: tuple[tuple[str, str], ...]
    ready: tuple[str, ...]
    places: tuple[PacketPlace, ...]
    tests: tuple[TestLine, ...]
    corrections: tuple[PacketCorrection, ...]
    papers: tuple[PaperLine, ...]
    made: str
    back: str
    photo_at: str = "/photos/"
    photo_end: str = "/1280"

    @property
    def shas(self) -> frozenset[str]:
        """Every picture that may be opened for it."""
        own = {picture.sha256 for place in self.places for picture in place.pictures}
        own |= {sha for one in self.corrections for sha, _ in one.pictures}
        return frozenset(own | {paper.picture.sha256 for paper in self.papers if paper.picture})


@dataclass(frozen=True, slots=True)
class PacketPage:
    """The ticks. Everything that is offered is ticked at first, except papers with amounts or names."""

    sheet: Sheet
    title: str
    visit_href: str
    parts: tuple[tuple[str, str, str], ...]
    places: Choices
    pictures: tuple[PacketPicture, ...]
    papers: tuple[tuple[str, str, str], ...]
    ticked: tuple[str, ...]
    print_href: str
    pdf_href: str
    has_pdf: bool


@dataclass(frozen=True, slots=True)
class _Known:
    """What a packet can be made of."""

    visit: VisitFacts
    inspection: InspectionFacts
    permit: PermitFacts
    book: Book
    thing: Thing
    slots: Mapping[int, tuple[SlotFacts, ...]]
    photos: Mapping[int, PhotoFacts]

    @property
    def place_ids(self) -> tuple[int, ...]:
        """The surfaces of the inspection; all of them where it looks at the whole building."""
        return self.inspection.surface_ids or tuple(self.book.surfaces)


def _known(session: Session, here: Here, visit_id: int) -> _Known:
    visit, book = store.get_visit(session, here.build.id, visit_id), read_book(session, here)
    inspection = book.inspection(visit.inspection_id)
    places = inspection.surface_ids or tuple(book.surfaces)
    filled = [
        one
        for one in surfaces.list_slots(session, here.build.id)
        if one.surface_id in places and one.photo_id is not None and one.ended_on is None
    ]
    things = name_things(session, here)
    return _Known(
        visit=visit,
        inspection=inspection,
        permit=book.permits[inspection.permit_id],
        book=book,
        thing=next(one for one in things if (one.kind, one.id) == (AboutKind.VISIT, visit_id)),
        slots={place: tuple(one for one in filled if one.surface_id == place) for place in places},
        photos={one.id: one for one in list_photos(session, (one.photo_id for one in filled if one.photo_id))},
    )


def _pictures(known: _Known, surface_id: int) -> tuple[PacketPicture, ...]:
    found: dict[int, PacketPicture] = {}
    for slot in known.slots.get(surface_id, ()):
        photo = known.photos[slot.photo_id or 0]
        words = f"{slot.number}. {slot.what}"
        if photo.id in found:
            words = f"{found[photo.id].words}; {words}"
        found[photo.id] = PacketPicture(photo.id, photo.sha256, words, show_taken(photo.taken_at))
    return tuple(found.values())


def _papers(session: Session, here: Here, known: _Known) -> tuple[PaperLine, ...]:
    found = [one for one in list_papers(session, here.build.id) if one.stands and is_of(one.about, known.thing)]
    return paper_lines(session, here, found, name_things(session, here))


def chosen_of(session: Session, here: Here, visit_id: int) -> Chosen:
    """What is ticked at first."""
    known = _known(session, here, visit_id)
    pictures = (one.photo_id for place in known.place_ids for one in _pictures(known, place))
    papers = (one.code for one in _papers(session, here, known) if one.kind not in NOT_SENT)
    parts = (name for name, _, _ in PARTS)
    return Chosen(frozenset(parts), frozenset(known.place_ids), frozenset(pictures), frozenset(papers))


def packet_page(session: Session, here: Here, visit_id: int, *, has_pdf: bool) -> PacketPage:
    known = _known(session, here, visit_id)
    first = chosen_of(session, here, visit_id)
    base = f"{here.base}/visits/{visit_id}"
    ticked = (
        *first.parts,
        *(f"s{one}" for one in first.places),
        *(f"p{one}" for one in first.pictures),
        *first.papers,
    )
    return PacketPage(
        sheet=here.sheet(f"V2-{known.inspection.position}", "Packet", f"Packet: {known.inspection.name}"),
        title=known.inspection.name,
        visit_href=base,
        parts=PARTS,
        places=tuple((str(one), known.book.name(one)) for one in known.place_ids),
        pictures=tuple(one for place in known.place_ids for one in _pictures(known, place)),
        papers=tuple((one.code, one.name, one.detail) for one in _papers(session, here, known)),
        ticked=ticked,
        print_href=f"{base}/packet/print",
        pdf_href=f"{base}/packet/pdf",
        has_pdf=has_pdf,
    )


def packet(
    session: Session, here: Here, visit_id: int, chosen: Chosen, photo_at: str = "/photos/", end: str = "/1280"
) -> Packet:
    """The packet itself."""
    known = _known(session, here, visit_id)
    places = tuple(one for one in known.place_ids if one in chosen.places)
    tests = those_on(session, here, places) if "tests" in chosen.parts else ()
    return Packet(
        sheet=here.sheet(f"V2-{known.inspection.position}", "Packet", f"{known.inspection.name}: packet"),
        title=known.inspection.name,
        facts=_facts(here, known, with_permit="permit" in chosen.parts),
        ready=tuple(part.strip() for part in known.inspection.must_be_ready.split(";") if part.strip()),
        places=tuple(_place(session, here, known, one, chosen) for one in places),
        tests=lines_of(session, here, tests),
        corrections=_corrections(known, places) if "corrections" in chosen.parts else (),
        papers=tuple(one for one in _papers(session, here, known) if one.code in chosen.papers),
        made=f"Made {show_date(here.today)} from my own record. The local authority decides.",
        back=f"{here.base}/visits/{visit_id}/packet",
        photo_at=photo_at,
        photo_end=end,
    )


def _facts(here: Here, known: _Known, *, with_permit: bool) -> tuple[tuple[str, str], ...]:
    visit, permit = known.visit, known.permit
    came = "Visit" if visit.outcome in {Outcome.PLANNED, Outcome.ASKED} else "Visited"
    rows = [
        ("Build", here.build.name),
        (own("Inspection"), known.inspection.name),
        (came, ", ".join(part for part in (show_long_day(visit.day) if visit.day else "", visit.window) if part)),
    ]
    if with_permit:
        rows += [
            (own("Permit"), f"{permit.name} ({permit.code})"),
            (f"{own('Permit')} number", permit.number),
            ("Issued", show_date(permit.issued_on) if permit.issued_on else ""),
            ("Covers", permit.covers),
        ]
    return tuple((label, value) for label, value in rows if value)


def _place(session: Session, here: Here, known: _Known, surface_id: int, chosen: Chosen) -> PacketPlace:
    surface = known.book.surfaces[surface_id]
    drawn = elevation(session, here, surface, alone=True) if "drawings" in chosen.parts else None
    standings = known.book.standings(known.inspection)
    stands = standings.get(surface_id) or standings.get(None)
    return PacketPlace(
        id=surface_id,
        code=surface.code,
        name=surface.name,
        stands=", ".join(
            part for part in (stands.words, show_date(stands.day) if stands.day else "", stands.by) if part
        )
        if stands
        else "",
        drawing=drawn.sheet if drawn else None,
        note=drawn.note if drawn else "",
        pictures=tuple(one for one in _pictures(known, surface_id) if one.photo_id in chosen.pictures),
    )


def _corrections(known: _Known, places: tuple[int, ...]) -> tuple[PacketCorrection, ...]:
    own = [
        one
        for one in known.book.corrections
        if one.inspection_id == known.inspection.id and (one.surface_id is None or one.surface_id in places)
    ]
    lines = known.book.correction_lines(tuple(own))
    return tuple(
        PacketCorrection(line, tuple(pair for pair in ((one.before, "Before"), (one.after, "After")) if pair[0]))
        for one, line in zip(own, lines, strict=True)
    )
