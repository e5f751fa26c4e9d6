"""The days and whose hours they took, what was spent, and what was filmed."""

from webapp.demo.actions.book import NIGHT, Book, moment
from webapp.demo.rules.owing import goes_before, shot_surfaces
from webapp.demo.rules.record_rows import Shot as ShotRow
from webapp.demo.rules.record_rows import Spend as SpendRow
from webapp.demo.rules.record_rows import Workday as WorkdayRow
from webapp.footage.models import Shot
from webapp.money.models import Spend
from webapp.surfaces.models import Lifted, ShotSurface
from webapp.workdays.models import Workday, WorkdayPhoto, WorkdayShot, WorkdaySpend, WorkEntry

_BINDERY = "bindery"
_KINDS = {"double charge": "into the building"}


def write_spend(book: Book) -> None:
    """Only what belongs to this build; a line for the house on the same receipt stays out."""
    lines = {row.id: _spend(book, row) for row in book.content.spend if row.project == _BINDERY}
    book.keep("spend", lines)


def _spend(book: Book, row: SpendRow) -> Spend:
    sellers = {supplier.id: supplier.name for supplier in book.content.suppliers}
    return Spend(
        build_id=book.build.id,
        day=row.day,
        what=f"{row.qty} × {row.desc}" if row.qty > 1 else row.desc,
        supplier=sellers[row.supplier],
        kind=_KINDS.get(row.kind, row.kind),
        total_cents=row.total_cents,
        tax_cents=row.tax_cents,
        value_cents=row.value_cents,
        phase_id=book.maybe("phase", row.phase),
        task_id=book.maybe("task", row.task),
        receipt_photo_id=book.maybe("photo", row.receipt or row.paper),
        note=row.note,
        at=moment(row.day, NIGHT),
    )


def write_shots(book: Book) -> None:
    surfaces = shot_surfaces(book.content)
    skipped_on = {row.id: book.done_day(row.task) for row in book.content.footage if row.state == "skipped"}
    shots = {}
    for row in book.content.footage:
        skipped = row.state == "skipped"
        shots[row.id] = Shot(
            build_id=book.build.id,
            task_id=book.maybe("task", goes_before(row, book.content)),
            what=row.what,
            once=row.once,
            strength=row.strength,
            state=row.state,
            filmed_on=row.filmed_day,
            where_it_lies=row.where_it_lies,
            files=row.files,
            seconds=row.seconds,
            note="" if skipped else row.note,
            skipped_on=skipped_on.get(row.id),
            skipped_why=row.note if skipped else "",
        )
    book.keep("shot", shots)
    for row in book.content.footage:
        for surface in surfaces[row.id]:
            book.add(ShotSurface(shot_id=book.id("shot", row.id), surface_id=book.id("surface", surface)))
            if row.state == "skipped":
                _let_go(book, row, surface)


def _let_go(book: Book, row: ShotRow, surface: str) -> None:
    day = book.done_day(row.task)
    if day is not None:
        book.add(
            Lifted(
                surface_id=book.id("surface", surface),
                node_key=f"shot:{book.id('shot', row.id)}",
                what=f"Shot: {row.what[:1].lower()}{row.what[1:]}",
                why=row.note,
                on_day=day,
                at=moment(day, NIGHT),
            )
        )


def write_days(book: Book) -> None:
    days = {row.id: _day(book, row) for row in book.content.workdays}
    book.keep("workday", days)
    _write_entries(book)
    _write_what_came_along(book)


def _day(book: Book, row: WorkdayRow) -> Workday:
    return Workday(
        build_id=book.build.id,
        day=row.day,
        own_min=row.self_min,
        helper_unpaid_min=row.unpaid_helper_min,
        helper_paid_min=row.paid_helper_min,
        hired_min=row.hired_min,
        weather=row.weather,
        done=row.note,
        stopped_by=row.stopped_by,
        next_step=row.next,
        lost=row.lost,
        logged_at=moment(row.day, NIGHT),
    )


def _write_entries(book: Book) -> None:
    """A task is finished with the entry of its last day: my own where there is one."""
    last = {row.id: row.last_day for row in book.content.tasks if row.state == "done"}
    finishing: dict[str, str] = {}
    for row in book.content.work_entries:
        if row.day == last.get(row.task) and (row.who == "self" or row.task not in finishing):
            finishing[row.task] = row.id
    for row in book.content.work_entries:
        book.add(
            WorkEntry(
                workday_id=book.id("workday", row.workday),
                task_id=book.id("task", row.task),
                who=row.who,
                minutes=row.minutes,
                finished=finishing.get(row.task) == row.id,
            )
        )


def _write_what_came_along(book: Book) -> None:
    """Pictures, spend and shots of a day came with that day's note, where there is one."""
    on = {row.day: book.id("workday", row.id) for row in book.content.workdays}
    pictures = {(on.get(row.received_day), book.id("photo", row.id)) for row in book.content.pictures}
    for workday_id, photo_id in sorted((day, photo) for day, photo in pictures if day):
        book.add(WorkdayPhoto(workday_id=workday_id, photo_id=photo_id))
    for line in book.content.spend:
        if line.day in on and line.project == _BINDERY:
            book.add(WorkdaySpend(workday_id=on[line.day], spend_id=book.id("spend", line.id)))
    for shot in book.content.footage:
        if shot.filmed_day in on:
            book.add(WorkdayShot(workday_id=on[shot.filmed_day], shot_id=book.id("shot", shot.id)))
