"""What is typed about a change from what was approved."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import partial

from webapp.core.forms import Reader, Submitted
from webapp.inspections.forms.fields import Keep
from webapp.inspections.rules.changing import Answer, Change, Move, Reopening, Touched
from webapp.inspections.rules.kinds import ChangeAnswer
from webapp.inspections.store import Offer, Offered
from webapp.plan.guard import Here
from webapp.surfaces.rules.corners import along
from webapp.surfaces.rules.fitting import box_wrong, thing_wrong
from webapp.surfaces.rules.places import outside
from webapp.surfaces.store import ItemFacts, OpeningFacts, SurfaceFacts
from webapp.values.dates import parse_day, show_date
from webapp.values.errors import BadInput
from webapp.values.length import parse_length


@dataclass(frozen=True, slots=True)
class Ground:
    """What a thing can be put on: the build's surfaces, and what is in them."""

    surfaces: tuple[SurfaceFacts, ...]
    openings: tuple[OpeningFacts, ...]
    items: tuple[ItemFacts, ...]


@dataclass(frozen=True, slots=True)
class Where:
    """`approved`: the builder says that it was on the approved plan."""

    move: Move
    approved: bool


def read_where(sent: Submitted, here: Here, item: ItemFacts, ground: Ground) -> Where:
    """Where a hidden thing goes: inside its surface, in no opening, no box where another one is. Raises BadForm."""
    reader, unit = Reader(sent), here.build.unit
    codes = {one.code: one for one in ground.surfaces}
    to = codes.get(reader.one_of("to", tuple(codes), required="Choose the surface it goes to."))
    length = partial(parse_length, unit=unit)
    x, y = reader.parsed("x", length), reader.parsed("y", length)
    corner = reader.text("corner", most=40) or (to.origin_corner if to else "")
    if to is not None:
        _check_place(reader, to, along(to, corner, x), y, item, ground, unit)
    approved = reader.flag("approved")
    reader.done()
    return Where(Move(item.id, to.id if to else 0, corner, x, y), approved)


def _check_place(
    reader: Reader, to: SurfaceFacts, x: int | None, y: int | None, item: ItemFacts, ground: Ground, unit: str
) -> None:
    for field, sentence in outside(to.kind, to.length_nm, to.height_nm, x, y, unit).items():
        reader.wrong(field, sentence)
    if (to.id, x, y) == (item.surface_id, item.x_nm, item.y_nm):
        reader.wrong("x", "That is where it is now. Write where it goes.")
    holes = [one for one in ground.openings if one.surface_id == to.id and one.removed_on is None]
    boxes = [
        one
        for one in ground.items
        if item.is_box and one.is_box and one.surface_id == to.id and one.replaced_on is None and one.id != item.id
    ]
    if taken := thing_wrong(x, y, holes) or box_wrong(x, y, boxes, unit):
        reader.wrong("x", taken)


def _past_day(text: str, today: date) -> date:
    day = parse_day(text, today)
    if day > today:
        raise BadInput(f"{show_date(day)} is still to come.", (today.isoformat(),))
    return day


def _change(reader: Reader, today: date) -> Change:
    past = partial(_past_day, today=today)
    return Change(
        what=reader.text("what", "Say what changed: “Sink moved from the west to the north wall”.", most=300),
        why=reader.text("why", most=1000),
        who_agrees=reader.text("who", most=120) or "the authority",
        on_day=reader.parsed("on", past, "On which day was it changed, or decided?") or today,
        asked_on=reader.parsed("asked_on", past),
    )


def _ids(reader: Reader, name: str, offers: tuple[Offer, ...]) -> tuple[int, ...]:
    return tuple(int(one) for one in reader.many_of(name, [offer.key for offer in offers]))


def _reopened(reader: Reader, offered: Offered) -> tuple[Reopening, ...]:
    keys = (key.split("@") for key in reader.many_of("reopen", [offer.key for offer in offered.reopen]))
    return tuple((int(one), int(place) or None) for one, place in keys)


def read_moved(sent: Submitted, here: Here, offered: Offered, places: tuple[int, ...]) -> tuple[Change, Touched]:
    """A change that moves a thing; `places` are its old and its new surface. Raises BadForm."""
    reader = Reader(sent)
    touched = Touched(
        surface_ids=places,
        reopened=_reopened(reader, offered),
        shot_ids=_ids(reader, "shots", offered.shots),
        task_ids=_ids(reader, "tasks", offered.tasks),
        slot_ids=_ids(reader, "slots", offered.slots),
    )
    change = _change(reader, here.today)
    reader.done()
    return change, touched


def read_any(sent: Submitted, here: Here, offered: Offered, codes: Mapping[str, int]) -> tuple[Change, Touched]:
    """A change that moves nothing: the builder says which surfaces it touches. Raises BadForm."""
    reader = Reader(sent)
    places = [codes[code] for code in reader.many_of("surfaces", tuple(codes))]
    reopened = _reopened(reader, offered)
    places += [place for _, place in reopened if place is not None]
    if not places:
        reader.wrong("surfaces", "Choose at least one surface: it stays open until the change is answered.")
    change = _change(reader, here.today)
    reader.done()
    return change, Touched(tuple(dict.fromkeys(places)), reopened)


def read_answer(sent: Submitted, here: Here, keep: Keep) -> Answer:
    """What was said, by whom; `keep` puts the picture of the paper on record. Raises BadForm."""
    reader = Reader(sent)
    answer = ChangeAnswer(reader.one_of("answer", tuple(ChangeAnswer), ChangeAnswer.NONE.value))
    if not sent.text("answer"):
        reader.wrong("answer", "Choose what was said.")
    conditions = "Write the conditions." if answer == ChangeAnswer.AGREED_WITH_CONDITIONS else ""
    made = Answer(
        answer=answer,
        who=reader.text("who", "Write who said so: “the inspector, by telephone”.", most=120),
        on=reader.parsed("on", partial(_past_day, today=here.today), "On which day?") or here.today,
        words=reader.text("words", conditions, most=1000),
        photo_id=reader.file("paper", keep),
    )
    reader.done()
    return made


def read_right(sent: Submitted, here: Here) -> tuple[Change, str]:
    """A change put right, and why. Raises BadForm."""
    reader = Reader(sent)
    change, why = _change(reader, here.today), reader.text("because", most=300)
    reader.done()
    return change, why
