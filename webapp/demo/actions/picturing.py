"""The pictures: painted files kept as if they had been sent, what is known of each, and where it belongs."""

from collections.abc import Iterable, Mapping
from datetime import date

from webapp.demo.actions.book import NIGHT, Book, moment
from webapp.demo.files.painting import Painted
from webapp.demo.rules.content import Content
from webapp.demo.rules.marks import HIGH, MARKS, PICTURE, SURFACE, WIDE
from webapp.demo.rules.papers import PHOTOGRAPHED_ALONE
from webapp.demo.rules.visits import PHOTOGRAPHED
from webapp.photos.models import Photo, PhotoChange
from webapp.surfaces.models import PicturePlace, PicturePoint
from webapp.surfaces.rules.scaled import MILLION
from webapp.values.dates import show_date
from webapp.values.length import NM_PER_INCH

_STAGES = {"before insulation": "before", "after insulation": "after"}


def file_names(content: Content) -> list[str]:
    """Every picture and receipt, and each paper that something rests on, unless a picture shows it already."""
    papers = {row.paper for row in content.results} | {row.paper for row in content.spend if not row.receipt}
    papers |= PHOTOGRAPHED_ALONE
    wanted = [row.id for row in content.papers if row.id in papers or row.kind.startswith("letter, withdrawal")]
    receipts = [row.id for row in content.receipts]
    return [*(row.id for row in content.pictures), *(name for name in wanted if name not in PHOTOGRAPHED), *receipts]


def write_pictures(book: Book, painted: Iterable[Painted]) -> None:
    """A row for each file as it gets ready. The one that was sent twice ends as one picture."""
    shown = {row.id: (row.received_day, row.caption) for row in book.content.pictures}
    shown |= {row.id: (row.day, f"{row.kind[:1].upper()}{row.kind[1:]}") for row in book.content.papers}
    shown |= {row.id: (row.day, f"Receipt of {show_date(row.day)}") for row in book.content.receipts}
    rows: dict[str, Photo] = {}
    of: dict[str, str] = {}
    for each in painted:
        of[each.name] = each.sha256
        rows.setdefault(each.sha256, _photo(each, *shown[each.name]))
        book.painted[each.name] = each
    _say_when(book, {name: rows[sha256] for name, sha256 in of.items()})
    # Copies to show are made in the order of the rows, and what is newest is looked at first.
    newest_first = sorted(rows, key=lambda sha256: rows[sha256].received_at, reverse=True)
    book.keep("bytes", {sha256: rows[sha256] for sha256 in newest_first})
    ids = {name: book.id("bytes", sha256) for name, sha256 in of.items()}
    book.ids["photo"] = ids | {paper: ids[picture] for paper, picture in PHOTOGRAPHED.items()}
    _note_said(book)
    _place(book)


def _photo(each: Painted, received: date, caption: str) -> Photo:
    looked = each.looked
    return Photo(
        sha256=each.sha256,
        media_type=looked.media_type,
        size=each.size,
        width=looked.width,
        height=looked.height,
        original_name=f"{each.name.lower()}.jpg",
        taken_at=looked.taken_at,
        taken_from="camera" if looked.taken_at else "unknown",
        received_at=moment(received, NIGHT),
        caption=caption,
    )


def _said_by_owner(book: Book) -> dict[str, str]:
    """Pictures whose day the builder wrote in, since the camera had lost its clock."""
    return {
        row.id: f"{row.taken_day.isoformat()}T{row.taken_time}"
        for row in book.content.pictures
        if row.taken_from == "set by me" and row.taken_day
    }


def _say_when(book: Book, rows: Mapping[str, Photo]) -> None:
    for name, said in _said_by_owner(book).items():
        rows[name].taken_at, rows[name].taken_from = said, "owner"


def _note_said(book: Book) -> None:
    received = {row.id: row.received_day for row in book.content.pictures}
    for name, said in _said_by_owner(book).items():
        at = moment(received[name], NIGHT)
        photo_id = book.id("photo", name)
        book.add(PhotoChange(photo_id=photo_id, field="taken", was="unknown", became=f"{said} (owner)", at=at))


def _place(book: Book) -> None:
    made: dict[tuple[int, int | None, int | None], PicturePlace] = {}
    for row in book.content.pictures:
        where = (book.id("photo", row.id), book.maybe("surface", row.surface), book.maybe("item", row.item))
        photo_id, surface_id, item_id = where
        place = PicturePlace(
            build_id=book.build.id,
            photo_id=photo_id,
            surface_id=surface_id,
            item_id=item_id,
            stage=_STAGES.get(row.stage, "general"),
            placed_at=moment(row.received_day, NIGHT),
        )
        made.setdefault(where, place)
    book.add(*made.values())


def write_marks(book: Book) -> None:
    """What was read off one picture. After places and pictures are there."""
    for number, mark in enumerate(MARKS, 1):
        known = mark.x_in is not None and mark.y_in is not None
        book.add(
            PicturePoint(
                photo_id=book.id("photo", PICTURE),
                surface_id=book.id("surface", SURFACE),
                number=number,
                across=mark.right * MILLION // WIDE,
                down=mark.down * MILLION // HIGH,
                what=mark.what,
                x_nm=mark.x_in * NM_PER_INCH if mark.x_in is not None else None,
                y_nm=mark.y_in * NM_PER_INCH if mark.y_in is not None else None,
                known=known,
                item_id=book.maybe("item", mark.item),
                at=moment(book.content.saturday, NIGHT),
            )
        )
