"""What was said besides results, and where the corrections are on their drawings."""

from webapp.demo.actions.book import EVENING, Book, moment
from webapp.demo.rules.visits import ADVICE_ABOUT, CORRECTION_MINUTES, CORRECTION_PLACES
from webapp.inspections.actions.corrections import show_pictures
from webapp.inspections.models import Advice, Correction
from webapp.inspections.rules.kinds import AdviceForm
from webapp.surfaces.store import get_item


def write_advice(book: Book) -> None:
    for row in book.content.verbal_advice:
        book.add(
            Advice(
                build_id=book.build.id,
                day=row.day,
                who=row.who,
                words=row.words,
                form=row.form or AdviceForm.SAID.value,
                inspection_id=book.maybe("inspection", ADVICE_ABOUT.get(row.id, "")),
                surface_id=book.maybe("surface", row.surface),
                used_for=row.used_for,
                recorded_at=moment(row.day, EVENING),
            )
        )


def place_corrections(book: Book) -> None:
    """Where its thing is, where it has one; its pictures are pinned beside it."""
    for row in book.content.corrections:
        correction = book.session.get_one(Correction, book.id("correction", row.id))
        correction.likely_min = CORRECTION_MINUTES.get(row.id)
        if correction.item_id is not None:
            item = get_item(book.session, book.build.id, correction.item_id)
            correction.x_nm, correction.y_nm = item.x_nm, item.y_nm
        elif row.id in CORRECTION_PLACES:
            correction.x_nm, correction.y_nm = CORRECTION_PLACES[row.id]
        book.add(correction)
        book.session.flush()
        show_pictures(book.session, correction)
