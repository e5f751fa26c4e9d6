"""What was said besides results, what was said aloud, and where the corrections are on their drawings."""

from webapp.core.settings import Settings
from webapp.demo.actions.book import EVENING, Book, moment
from webapp.demo.files.sounding import sound_of
from webapp.demo.rules.aloud import SPOKEN
from webapp.demo.rules.days import day_at
from webapp.demo.rules.visits import ADVICE_ABOUT, CORRECTION_MINUTES, CORRECTION_PLACES
from webapp.inspections.actions.corrections import show_pictures
from webapp.inspections.models import Advice, Correction
from webapp.inspections.rules.kinds import AdviceForm
from webapp.surfaces.store import get_item
from webapp.voice.files import keep_sound
from webapp.voice.models import VoiceNote
from webapp.voice.rules.places import PlaceKind


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


def write_aloud(book: Book, settings: Settings) -> None:
    """Voice notes, kept as if they had been sent. After surfaces, visits and workdays are there."""
    for spoken in SPOKEN:
        day = day_at(book.content.saturday, spoken.day)
        kept = keep_sound(settings.voice, sound_of(spoken), f"memo {day}.wav", settings.voice_mb)
        named = {kind: name for kind in PlaceKind if (name := getattr(spoken, kind.value))}
        kind, name = next(iter(named.items()), ("", ""))
        book.add(
            VoiceNote(
                build_id=book.build.id,
                sha256=kept.sha256,
                media_type=kept.media_type,
                size=kept.size,
                seconds=kept.seconds,
                original_name=kept.name,
                said_at=f"{day}T{spoken.at:%H:%M:%S}",
                received_at=moment(day, spoken.at),
                about_kind=kind,
                about_id=book.maybe(kind, name),
                words=spoken.words,
            )
        )
