"""What is typed about surfaces, read in the build's own unit."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import partial

from webapp.core.forms import Reader, Submitted
from webapp.plan.guard import Here
from webapp.surfaces.actions import ItemDraft, SurfaceDraft
from webapp.surfaces.rules.back import back_wrong
from webapp.surfaces.rules.corners import along, ends_of, is_known
from webapp.surfaces.rules.fitting import box_wrong, goes_past, thing_wrong
from webapp.surfaces.rules.kinds import SERVICES, OpeningKind, QuestionKind, SurfaceKind
from webapp.surfaces.rules.places import absurd, outside
from webapp.surfaces.rules.quick import made_label
from webapp.surfaces.store import ItemFacts, LineFacts, OpeningFacts, QuestionFacts, SurfaceFacts
from webapp.values.dates import parse_day, show_date
from webapp.values.errors import BadInput
from webapp.values.length import parse_length

FACINGS = ("", "N", "E", "S", "W")
SETS = ("before", "after", "general")
STRENGTHS = ("must", "wish")
_CODE = re.compile(r"[A-Za-z0-9]{1,8}")
TAKEN_CODES = {"NEW"}
"""codes that would hide an address of ours"""


def read_code(text: str) -> str:
    """A surface's short name, in capitals. Raises BadInput."""
    if not _CODE.fullmatch(text):
        raise BadInput("One to eight letters or figures, such as E or TR.")
    if text.upper() in TAKEN_CODES:
        raise BadInput(f"“{text}” is a word of this program; take another.")
    return text.upper()


def place_of(text: str, unit: str) -> int:
    """A distance on a surface, in nanometres. Raises BadInput for one that no surface has."""
    length = parse_length(text, unit)
    if wrong := absurd(length, unit):
        raise BadInput(wrong)
    return length


def size_of(text: str, unit: str) -> int:
    """A size in nanometres, more than zero. Raises BadInput."""
    length = place_of(text, unit)
    if length <= 0:
        raise BadInput("A length is more than zero.")
    return length


def read_new_surface(sent: Submitted, here: Here, taken: tuple[str, ...]) -> tuple[str, SurfaceDraft]:
    """Short name and the rest. Raises BadForm."""
    reader = Reader(sent)
    code = reader.parsed("code", read_code, "Give it a short name of a letter or two, such as E.") or ""
    if code in taken:
        reader.wrong("code", f"“{code}” is the short name of another surface here.")
    draft = _surface(reader, here.build.unit)
    reader.done()
    return code, draft


def read_surface(
    sent: Submitted, here: Here, known: SurfaceFacts, surfaces: Sequence[SurfaceFacts]
) -> tuple[SurfaceDraft, SurfaceFacts | None]:
    """What is said of it, and the other face of the same wall; None for none. Raises BadForm."""
    reader, unit = Reader(sent), here.build.unit
    draft = _surface(reader, unit)
    others = {surface.code: surface for surface in surfaces}
    other = others.get(reader.one_of("other_face", ("", *others)))
    if other is not None:
        said = replace(known, kind=draft.kind, length_nm=draft.length_nm)
        wrong = back_wrong(said, other, surfaces, unit)
        if wrong:
            reader.wrong("other_face", wrong)
    reader.done()
    return draft, other


def _surface(reader: Reader, unit: str) -> SurfaceDraft:
    length = partial(size_of, unit=unit)
    return SurfaceDraft(
        name=reader.text("name", "Give it a name, such as East wall.", most=80),
        kind=reader.one_of("kind", tuple(SurfaceKind), SurfaceKind.WALL.value),
        length_nm=reader.parsed("length", length),
        height_nm=reader.parsed("height", length),
        origin_corner=reader.text("origin_corner", most=40),
        far_corner=reader.text("far_corner", most=40),
        framing=reader.text("framing", most=40),
        spacing_nm=reader.parsed("spacing", length),
        first_stud_nm=reader.parsed("first_stud", length),
        bearing=reader.flag("bearing"),
        facing=reader.one_of("facing", FACINGS),
        closed_by=reader.text("closed_by", most=120),
        note=reader.text("note"),
        needs_count=reader.flag("needs_count"),
    )


def read_line(reader: Reader, lines: Iterable[LineFacts]) -> LineFacts | None:
    """The circuit or line that was chosen by its short name; None for none."""
    known = {line.code: line for line in lines}
    return known.get(reader.one_of("line", ("", *known)))


def read_item(
    sent: Submitted,
    here: Here,
    surface: SurfaceFacts,
    openings: Iterable[OpeningFacts],
    others: Iterable[ItemFacts],
    lines: Iterable[LineFacts],
) -> ItemDraft:
    """A hidden thing that lies inside its surface and in no opening, a box not where another one is. Raises BadForm.

    `openings` and `others` are those of the same surface; what is gone or was replaced is in nobody's way.
    """
    reader, unit = Reader(sent), here.build.unit
    length, line = partial(place_of, unit=unit), read_line(reader, lines)
    kind, others = reader.text("kind", most=40), tuple(others)
    draft = ItemDraft(
        label=reader.text("label", "" if kind else "Say what it is, such as Receptacle by the door.", most=120)
        or made_label(kind, [one.kind for one in others]),
        kind=kind or "other",
        service=line.service if line else reader.one_of("service", SERVICES, "other"),
        line_id=line.id if line else None,
        from_corner=reader.text("from_corner", most=40),
        x_nm=reader.parsed("x", length),
        y_nm=reader.parsed("y", length),
        width_nm=reader.parsed("width", partial(size_of, unit=unit)),
        note=reader.text("note"),
        is_box=reader.flag("is_box"),
        from_picture=reader.flag("from_picture"),
    )
    if not is_known(surface, draft.from_corner):
        ends = tuple(end for end in ends_of(surface) if end)
        reader.wrong(
            "from_corner", f"{surface.name} has no such corner. It is measured from {' or '.join(ends)}.", ends
        )
    check_place(reader, here, surface, openings, others, draft)
    reader.done()
    return draft


def check_place(
    reader: Reader,
    here: Here,
    surface: SurfaceFacts,
    openings: Iterable[OpeningFacts],
    others: Iterable[ItemFacts],
    draft: ItemDraft,
) -> None:
    """Says beside x or y why a hidden thing cannot be where it was said to be."""
    unit = here.build.unit
    wrong = outside(surface.kind, surface.length_nm, surface.height_nm, draft.x_nm, draft.y_nm, unit)
    for field, sentence in wrong.items():
        reader.wrong(field, sentence)
    x = along(surface, draft.from_corner, draft.x_nm)
    boxes = [one for one in others if one.is_box and one.replaced_on is None] if draft.is_box else []
    holes = [one for one in holes_in(openings) if not goes_past(draft.kind, draft.width_nm, one)]
    taken = thing_wrong(x, draft.y_nm, holes) or box_wrong(x, draft.y_nm, boxes, unit)
    if taken:
        reader.wrong("x", taken)


def holes_in(openings: Iterable[OpeningFacts]) -> list[OpeningFacts]:
    """Those in which nothing can be hidden: what was closed up is none, and a sleeve is there to hold something."""
    return [one for one in openings if one.removed_on is None and one.kind != OpeningKind.SLEEVE]


@dataclass(frozen=True, slots=True)
class SlotForm:
    what: str
    picture_set: str
    strength: str


def read_slot(sent: Submitted) -> SlotForm:
    reader = Reader(sent)
    what = reader.text("what", "Say what the picture has to show.", most=200)
    form = SlotForm(what, reader.one_of("picture_set", SETS, "before"), reader.one_of("strength", STRENGTHS, "must"))
    reader.done()
    return form


@dataclass(frozen=True, slots=True)
class CountForm:
    """`found`: ids of the boxes that were ticked as found after the closing."""

    before: int | None
    after: int | None
    why: str
    found: tuple[int, ...]


def read_count(sent: Submitted, surface: SurfaceFacts, box_ids: Iterable[int]) -> CountForm:
    """Counts of boxes; one that changes a count on record needs a reason. Ticks alone count too. Raises BadForm."""
    reader = Reader(sent)
    before, after = reader.whole("before", most=999), reader.whole("after", most=999)
    found = tuple(int(one) for one in reader.many_of("found", [str(box_id) for box_id in box_ids]))
    if found and after in {None, surface.boxes_after}:
        after = len(found)
    if after is not None and after < len(found):
        reader.wrong("after", f"{len(found)} are ticked as found below.")
    form = CountForm(before, after, reader.text("why", most=200), found)
    if form.before is None and form.after is None:
        reader.wrong("before", "Count the boxes and write the number.")
    counted = ((form.before, surface.boxes_before), (form.after, surface.boxes_after))
    if not form.why and any(was is not None and new not in (None, was) for new, was in counted):
        reader.wrong("why", "A count on record changes: write why. The old one stays readable.")
    reader.done()
    return form


@dataclass(frozen=True, slots=True)
class QuestionForm:
    words: str
    kind: str
    who: str
    surface_id: int | None
    on: date


def read_question(sent: Submitted, here: Here, surfaces: tuple[SurfaceFacts, ...]) -> QuestionForm:
    reader = Reader(sent)
    codes = {surface.code: surface.id for surface in surfaces}
    form = QuestionForm(
        words=reader.text("words", "Write the question as it was asked."),
        kind=reader.one_of("kind", tuple(QuestionKind), QuestionKind.QUESTION.value),
        who=reader.text("who", most=80),
        surface_id=codes.get(reader.one_of("surface", tuple(codes))),
        on=reader.parsed("on", partial(past_day, today=here.today)) or here.today,
    )
    reader.done()
    return form


def past_day(text: str, today: date) -> date:
    day = parse_day(text, today)
    if day > today:
        raise BadInput(f"{show_date(day)} is still to come.", (today.isoformat(),))
    return day


@dataclass(frozen=True, slots=True)
class SettleForm:
    answer: str
    on: date


def read_settle(sent: Submitted, here: Here, question: QuestionFacts) -> SettleForm:
    reader = Reader(sent)
    answer = reader.text("answer", "Write what settles it: what you measured, saw or were told, and by whom.")
    on = reader.parsed("on", partial(past_day, today=here.today)) or here.today
    if on < question.asked_on:
        reader.wrong("on", f"It was asked on {show_date(question.asked_on)}; it cannot be settled before.")
    reader.done()
    return SettleForm(answer, on)


def read_why(sent: Submitted, sentence: str) -> str:
    """A reason that must be given. Raises BadForm with `sentence` beside the field."""
    reader = Reader(sent)
    why = reader.text("why", sentence)
    reader.done()
    return why
