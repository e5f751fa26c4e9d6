"""The papers: most as a picture, one as the PDF it came as, the plans only as the word that they lie on site."""

import io

from PIL import Image

from webapp.core.settings import Settings
from webapp.demo.actions.book import NIGHT, Book, moment
from webapp.demo.files.painter import paint
from webapp.demo.rules.papers import ABOUT, AS_FILE, kind_of, name_of, note_of, where_of
from webapp.demo.rules.scenes import paper_scene
from webapp.demo.rules.told_rows import Paper as Row
from webapp.papers.files import KeptFile, keep_pdf
from webapp.papers.models import Paper, PaperAbout
from webapp.papers.rules.kinds import AboutKind, PaperKind
from webapp.papers.rules.pdf import MEDIA_TYPE

AT_HAND = {PaperKind.PLAN, PaperKind.CARD, PaperKind.NOTICE, PaperKind.ENGINEER, PaperKind.MAKER, PaperKind.PRODUCT}


def write_papers(book: Book, settings: Settings) -> None:
    """After permits, visits, hired trades and pictures are there."""
    book.keep("paper", {row.id: _paper(book, row, settings) for row in book.content.papers})
    visits = {row.paper: row.visit for row in book.content.results}
    for row in book.content.papers:
        permit, visit = book.maybe("permit", row.permit), visits.get(row.id, "")
        about = [(AboutKind.PERMIT, permit)] if permit else []
        about += [(AboutKind.VISIT, book.id("visit", visit))] if visit else []
        about += [(AboutKind.SURFACE, book.id("surface", code)) for code in row.surfaces if code != "all"]
        about += [(AboutKind.HIRED, book.id("hired", row.id))] if row.id in book.ids.get("hired", {}) else []
        about += [(AboutKind(kind), book.id(kind, name)) for kind, name in ABOUT.get(row.id, ())]
        paper_id = book.id("paper", row.id)
        book.add(*(PaperAbout(paper_id=paper_id, about_kind=kind, about_id=about_id) for kind, about_id in about))


def _paper(book: Book, row: Row, settings: Settings) -> Paper:
    kind, photo_id = kind_of(row), book.ids["photo"].get(row.id)
    pdf = _as_file(row, settings) if row.id in AS_FILE else None
    return Paper(
        build_id=book.build.id,
        code=row.id,
        kind=kind,
        name=name_of(row),
        day=row.day,
        where=where_of(row, photo_id is not None),
        note=note_of(row),
        private=row.private,
        at_hand=kind in AT_HAND,
        in_house_file=row.in_house_file,
        photo_id=photo_id,
        file_sha256=pdf.sha256 if pdf else "",
        file_name=pdf.name if pdf else "",
        file_bytes=pdf.size if pdf else 0,
        media_type=MEDIA_TYPE if pdf else "",
        recorded_at=moment(row.day, NIGHT),
    )


def _as_file(row: Row, settings: Settings) -> KeptFile:
    """The painted sheet as a PDF of one page."""
    body = io.BytesIO()
    Image.open(io.BytesIO(paint(paper_scene(row)))).save(body, "PDF")
    body.seek(0)
    return keep_pdf(settings.papers, body, f"{row.id.lower()}.pdf", settings.paper_mb)
