"""The map: surfaces from the door clockwise, what is hidden in them, owed pictures, questions, closings."""

import json

from webapp.demo.actions.book import EVENING, Book, moment
from webapp.demo.rules import place_rows, plan_rows
from webapp.demo.rules.places import ends_of, kind_of, poles_of, round_from_the_door, service_of, side_of, slot_number
from webapp.readiness.store import look_over, proofs
from webapp.surfaces.models import (
    Cover,
    FixedTie,
    Item,
    Opening,
    PictureSlot,
    Question,
    Run,
    ServiceLine,
    Surface,
    TaskSurface,
)
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.values.dates import show_date

_CLOSED_BY = {"self": "me", "helper": "me and a helper", "hired": "a hired hand"}


def write_places(book: Book) -> None:
    surfaces = {row.id: row for row in book.content.surfaces}
    ordered = round_from_the_door(surfaces)
    book.keep("surface", {code: _surface(book, surfaces[code], place) for place, code in enumerate(ordered, 1)})
    lines = enumerate(book.content.services, 1)
    book.keep("line", {row.id: _line(book, row, place) for place, row in lines})
    book.keep("item", {row.id: _item(book, row) for row in book.content.items})
    book.keep("opening", {row.id: _opening(book, row) for row in book.content.openings})
    book.keep("tie", {row.id: _tie(book, row) for row in book.content.ties})
    for row in book.content.runs:
        book.keep("run", {f"{row.id} {row.seg}": _run(book, row)})
    for task in book.content.tasks:
        for code in dict.fromkeys((*task.surfaces, *filter(None, [task.closes]))):
            surface_id, closes = book.id("surface", code), code == task.closes
            book.add(TaskSurface(task_id=book.id("task", task.id), surface_id=surface_id, closes=closes))


def _surface(book: Book, row: place_rows.Surface, position: int) -> Surface:
    return Surface(
        build_id=book.build.id,
        position=position,
        code=row.id,
        name=row.name.removesuffix(", inside"),
        kind=SurfaceKind.SLAB.value if row.id == "SL" else row.kind,
        length_nm=row.length_nm,
        height_nm=row.height_nm,
        origin_corner=row.origin_corner,
        far_corner=row.far_corner,
        framing=row.framing,
        spacing_nm=row.spacing_nm,
        first_stud_nm=row.first_stud_nm,
        bearing=row.bearing,
        facing=side_of(row.id),
        closed_by=row.closed_by,
        note=row.note,
        boxes_before=row.boxes_counted_before,
        boxes_after=row.boxes_counted_after,
        needs_count=row.boxes_counted_before is not None,
    )


def _line(book: Book, row: place_rows.Service, position: int) -> ServiceLine:
    return ServiceLine(
        build_id=book.build.id,
        position=position,
        code=row.id,
        kind=kind_of(row),
        name=row.name,
        service=service_of(row),
        number=row.spaces,
        breaker_a=row.breaker_a,
        poles=poles_of(row),
        cable=row.cable,
        room=row.room,
        note=row.note,
    )


def _item(book: Book, row: place_rows.Item) -> Item:
    services = {service.id: service for service in book.content.services}
    notes = [row.note, "" if row.state == "in" else row.state]
    return Item(
        surface_id=book.id("surface", row.surface),
        label=row.label,
        kind=row.kind,
        service=service_of(services.get(row.service)),
        line_id=book.maybe("line", row.service),
        from_corner=row.from_corner,
        x_nm=row.x_nm,
        y_nm=row.y_nm,
        width_nm=row.width_nm,
        note="; ".join(filter(None, notes)),
        is_box=row.gangs is not None,
    )


def _opening(book: Book, row: place_rows.Opening) -> Opening:
    return Opening(
        surface_id=book.id("surface", row.surface),
        kind=row.kind,
        name=f"{row.name[:1].upper()}{row.name[1:]}",
        x_nm=row.x_nm,
        y_nm=row.y_nm,
        width_nm=row.width_nm,
        height_nm=row.height_nm,
    )


def _tie(book: Book, row: place_rows.Tie) -> FixedTie:
    return FixedTie(
        surface_id=book.id("surface", row.surface),
        name=row.name,
        x_nm=row.x_nm,
        from_a=row.from_a,
        a_nm=row.a_nm,
        from_b=row.from_b,
        b_nm=row.b_nm,
        note=row.note,
    )


def _run(book: Book, row: place_rows.Run) -> Run:
    begins, ends = ends_of(row, {item.id: item for item in book.content.items})
    services = {service.id: service for service in book.content.services}
    return Run(
        surface_id=book.id("surface", row.surface),
        label=", ".join(filter(None, [services[row.service].name, row.cable])),
        line_id=book.id("line", row.service),
        service=service_of(services[row.service]),
        points=json.dumps(row.points),
        note=row.note,
        from_item_id=book.maybe("item", begins),
        to_item_id=book.maybe("item", ends),
        continues_id=book.maybe("run", f"{row.id} {row.seg - 1}" if row.seg > 1 else ""),
    )


def write_slots(book: Book) -> None:
    """After the pictures: each slot is filled by the one that shows it."""
    received = {picture.id: picture.received_day for picture in book.content.pictures}
    slots = {}
    for row in book.content.picture_slots:
        filled = bool(row.filled_by)
        slots[row.id] = PictureSlot(
            surface_id=book.id("surface", row.surface),
            position=slot_number(row.id),
            number=slot_number(row.id),
            picture_set=row.picture_set.partition("-")[2],
            what=row.what,
            strength=row.strength,
            photo_id=book.id("photo", row.filled_by) if filled else None,
            filled_at=moment(received[row.filled_by]) if filled else None,
        )
    book.keep("slot", slots)


def write_questions(book: Book) -> None:
    book.keep("question", {row.id: _question(book, row) for row in book.content.questions})


def _question(book: Book, row: plan_rows.Question) -> Question:
    return Question(
        build_id=book.build.id,
        surface_id=book.maybe("surface", row.surface),
        item_id=book.maybe("item", row.item),
        kind=row.kind,
        words=row.words,
        asked_on=row.asked_day,
        asked_by=row.asked_by,
        answer=row.answer,
        settled_on=row.settled_day,
    )


def write_closings(book: Book) -> None:
    """Last of all: each closing carries what was settled by its day, as it would have been frozen then."""
    site = look_over(book.session, book.build, book.content.saturday)
    who = {task.id: _CLOSED_BY[task.who] for task in book.content.tasks}
    for row in book.content.surfaces:
        if row.closed_day is None:
            continue
        known = [
            each for each in proofs(site, book.id("surface", row.id)) if each.day is None or each.day <= row.closed_day
        ]
        evidence = [[each.what, each.who, show_date(each.day) if each.day else ""] for each in known]
        book.add(
            Cover(
                surface_id=book.id("surface", row.id),
                covered_on=row.closed_day,
                who=who[row.closed_by_task],
                layers=row.closed_by,
                evidence=json.dumps(evidence, ensure_ascii=False),
                at=moment(row.closed_day, EVENING),
            )
        )
