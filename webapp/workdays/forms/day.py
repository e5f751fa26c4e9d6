"""The day's form: every part may be left out, and every mistake gets its own sentence."""

from collections.abc import Callable, Iterable
from datetime import date

from webapp.core.forms import BadForm, FormState, Reader, Submitted
from webapp.money.rules.lines import what_is_odd
from webapp.plan.rules.kinds import TaskState
from webapp.plan.store import TaskFacts
from webapp.values.dates import parse_day, question_a_year_off, question_year
from webapp.values.duration import DAY_MINUTES, parse_hours
from webapp.values.money import parse_money
from webapp.workdays.actions import Received
from webapp.workdays.rules.hours import Hours, own_question, people_question, split_question
from webapp.workdays.rules.people import LONGEST_NAME, names_of
from webapp.workdays.rules.said import BLOCKS, SPEND_KINDS, Bought, DayForm, DayWords, Place, Work, stopped_words
from webapp.workdays.store import Asked, Offer

EMPTY = "Nothing is filled in yet. Hours, a few words or one picture: any of them is enough."
MOST_HELPERS = 20
"""people of one kind on one day; their hours are typed as one sum"""


def read_day(sent: Submitted, received: Received, asked: Asked, noted: Callable[[date], int]) -> DayForm:
    """The day as sent. `noted`: my own minutes in other notes of a day. Raises BadForm, with the pictures kept."""
    reader = Reader(sent)
    day = _day(reader, asked)
    work = _work(reader, asked)
    hours = _hours(reader, work, day, noted)
    form = DayForm(
        words=_words(reader, asked, day, hours),
        work=work,
        photo_ids=received.pictures,
        place=_place(reader, asked.offer, received),
        bought=_bought(reader, received, asked.offer.site.build.currency),
        shot_ids=_numbers(reader.many_of("shot", _ids(shot.id for shot in asked.offer.shots))),
        files_lie=reader.text("files_lie", most=200),
        as_worked=reader.flag("as_worked"),
        people=_people(reader),
        back=reader.flag("back"),
        said_here=_numbers(one for one in reader.text("said_here").split() if one.isdecimal()),
    )
    if form.empty and not (reader.errors or asked.amending):
        reader.wrong("pictures" if received.not_taken else "done", " ".join((*received.not_taken, EMPTY)))
    if reader.errors:
        raise BadForm(FormState({**sent.typed(), **received.hidden()}, reader.errors))
    return form


def _ids(numbers: Iterable[int]) -> frozenset[str]:
    return frozenset(str(number) for number in numbers)


def _numbers(values: Iterable[str]) -> tuple[int, ...]:
    return tuple(int(value) for value in dict.fromkeys(values))


def _day(reader: Reader, asked: Asked) -> date:
    """What is typed as another day goes before what the list says: it takes more trouble to type."""
    day = reader.parsed("other_day", lambda text: parse_day(text, asked.today))
    if day is None and "other_day" not in reader.errors:
        if reader.sent.text("day") == "other":
            reader.wrong("other_day", "Write the day: 9 May, or 2026-05-09.")
        else:
            day = reader.parsed("day", lambda text: parse_day(text, asked.today))
    if day is None:
        return asked.today
    if day == asked.day_before:
        return day
    question = question_year(day, asked.offer.permit_from, asked.today) or question_a_year_off(day, asked.today)
    if question and (day > asked.today or not reader.flag("day_sure")):
        reader.wrong("other_day", *question)
    return day


def _hours(reader: Reader, work: tuple[Work, ...], day: date, noted: Callable[[date], int]) -> Hours:
    split = sum(one.minutes or 0 for one in work)
    own = reader.parsed("own", parse_hours)
    if own is None:
        own = split
    for name, question in (("own", own_question(own, noted(day), day)), ("split", split_question(split, own))):
        if question and "own" not in reader.errors:
            reader.wrong(name, question)
    helpers = [_helper(reader, name) for name in ("helper_unpaid", "helper_paid", "hired")]
    return Hours(own, *helpers)


def _people(reader: Reader) -> tuple[str, ...]:
    names = names_of(reader.text("people", most=400))
    long = next((name for name in names if len(name) > LONGEST_NAME), "")
    if long:
        reader.wrong("people", f"“{long[:30]} …” is long for a name. Put a comma between two.")
    return names


def _helper(reader: Reader, name: str) -> int:
    minutes = reader.parsed(name, lambda text: parse_hours(text, MOST_HELPERS * DAY_MINUTES)) or 0
    question = people_question(minutes)
    if question and not reader.flag("people_sure"):
        reader.wrong(name, question)
    return minutes


def _work(reader: Reader, asked: Asked) -> tuple[Work, ...]:
    offer = asked.offer
    done = _done_meanwhile(reader, offer)
    tasks = {task.id: task for task in (*offer.first, *offer.more, *done)}
    known = _ids(tasks)
    undone = {int(one) for one in reader.text("not_finished").split() if one.isdecimal()}
    finished = {*_numbers(reader.many_of("finished", known)), *asked.finished_before} - undone
    worked = {*_numbers(reader.many_of("worked", known)), *finished, *undone}
    works = [
        Work(task.id, reader.parsed(f"split_{task.id}", parse_hours), task.id in finished)
        for task in tasks.values()
        if task.id in worked
    ]
    more = reader.one_of("more_task", known)
    if more and int(more) not in worked:
        works.append(Work(int(more), reader.parsed("more_hours", parse_hours), reader.flag("more_finished")))
    return tuple(works)


def _done_meanwhile(reader: Reader, offer: Offer) -> tuple[TaskFacts, ...]:
    """Ticked on a form that was filled in before they were finished elsewhere: both say the same."""
    ticked = {*reader.sent.texts("finished"), *reader.sent.texts("worked")}
    return tuple(task for task in offer.site.record.tasks if task.state == TaskState.DONE and str(task.id) in ticked)


def _words(reader: Reader, asked: Asked, day: date, hours: Hours) -> DayWords:
    stopped_by = stopped_words(reader.one_of("stopped", asked.stops), reader.text("stopped_by", most=400))
    lost = reader.flag("lost")
    if lost and not stopped_by:
        reader.wrong("stopped_by", "Say what stopped you; the reason stays with the day.")
    return DayWords(
        day=day,
        hours=hours,
        weather=reader.one_of("weather", asked.weathers),
        done=reader.text("done", most=8000),
        stopped_by=stopped_by,
        next_step=reader.text("next_step", most=1000),
        filmed=reader.text("filmed", most=2000),
        lost=lost,
    )


def _place(reader: Reader, offer: Offer, received: Received) -> Place:
    """A thing or an owed picture says which surface is meant, whatever the list of surfaces still shows."""
    surface = reader.one_of("surface", _ids(one.id for one in offer.surfaces))
    items = {str(one.id): one.surface_id for one in offer.items}
    slots = {str(one.id): one.surface_id for one in offer.slots}
    item, slot = reader.one_of("item", items), reader.one_of("slot", slots)
    if item and slot and items[item] != slots[slot]:
        reader.wrong("slot", "That picture is owed of another surface than the thing you chose.")
    if slot and not received.pictures:
        reader.wrong("slot", "Send the picture that fills this, or choose none.")
    surface_id = items.get(item) or slots.get(slot) or (int(surface) if surface else None)
    return Place(surface_id, int(item) if item else None, int(slot) if slot else None)


def _bought(reader: Reader, received: Received, currency: str) -> tuple[Bought, ...]:
    lines = [_line(reader, received, block, currency) for block in BLOCKS]
    paid = reader.parsed("helper_pay", lambda text: parse_money(text, currency))
    if paid is not None and paid <= 0:
        reader.wrong("helper_pay", "Write what was paid to them, or leave this empty.")
    elif paid:
        lines.append(Bought("Paid helper", paid, kind="paid labour"))
    return tuple(line for line in lines if line)


def _line(reader: Reader, received: Received, block: str, currency: str) -> Bought | None:
    name = {part: f"{block}_{part}" for part in ("what", "total", "from", "kind")}
    receipt = received.receipt(block)
    if not (receipt or any(reader.sent.text(name[part]) for part in ("what", "total", "from"))):
        return None
    what = reader.text(name["what"], required="Write what it was for.", most=200)
    total = reader.parsed(name["total"], lambda text: parse_money(text, currency), required="Write what was paid.")
    kind = reader.one_of(name["kind"], SPEND_KINDS, default="into the building")
    supplier = reader.text(name["from"], most=120)
    if total is not None and (odd := what_is_odd(kind, total, 0, None)):
        reader.wrong(name["total"], next(iter(odd.values())))
    return Bought(what, total or 0, supplier, kind, receipt)
