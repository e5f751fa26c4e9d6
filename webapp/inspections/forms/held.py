"""The form of a visit that was held: the result surface by surface, what was said, the paper, a fee."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from webapp.core.forms import Reader, Submitted
from webapp.inspections.forms.fields import Keep, place_name, read_paper
from webapp.inspections.forms.said import SaidRow, read_said
from webapp.inspections.forms.visits import day_held, read_asked_besides, read_fee
from webapp.inspections.rules.facts import CorrectionFacts, InspectionFacts
from webapp.inspections.rules.kinds import ResultKind
from webapp.inspections.rules.record import NewResult, VisitRecord, clashes
from webapp.plan.guard import Here

KINDS = tuple(each.value for each in ResultKind)
FOR_ALL = (ResultKind.PASSED, ResultKind.FAILED)
REPLACE, SECOND = "replace", "second"
SEEN, NOT_YET = "seen", "not yet"
_KIND = re.compile(r"kind_(\d+|whole)", re.ASCII)


@dataclass(frozen=True, slots=True)
class VisitContext:
    """What the form of a visit is read against. `on_record`: kinds this visit has already, by place; `owed`: places
    that were not passed before it; `to_show`: corrections of before that the inspector wants to see again; `hired`: id
    to trade.
    """

    inspection: InspectionFacts
    issued_on: date | None
    on_record: Mapping[int | None, str]
    names: Mapping[int | None, str]
    owed: tuple[int | None, ...]
    to_show: tuple[CorrectionFacts, ...] = ()
    hired: Mapping[str, str] = field(default_factory=dict)
    booked_on: date | None = None
    asked_on: date | None = None

    @property
    def places(self) -> dict[str, int | None]:
        return {place_name(place): place for place in self.inspection.places}


@dataclass(frozen=True, slots=True)
class _Results:
    new: tuple[NewResult, ...]
    replaced: tuple[NewResult, ...]
    second: tuple[NewResult, ...]


def _one_result(read: Reader, name: str, place: int | None, rest: str) -> NewResult | None:
    kind = read.one_of(f"kind_{name}", KINDS) or rest
    part = read.text(f"part_{name}", most=200)
    if not kind:
        return None
    if kind == ResultKind.PART_PASSED and not part:
        read.wrong(f"part_{name}", "Which part passed? From where to where.")
    return NewResult(place, ResultKind(kind), part if kind == ResultKind.PART_PASSED else "")


def _results(read: Reader, about: VisitContext) -> _Results:
    """`kind_all` counts for each surface still owed of which nothing is ticked."""
    for_all = read.one_of("kind_all", FOR_ALL)
    new: list[NewResult] = []
    replaced: list[NewResult] = []
    second: list[NewResult] = []
    for name, place in about.places.items():
        rest = for_all if place in about.owed and place not in about.on_record else ""
        made = _one_result(read, name, place, rest)
        if made is None or made.kind == about.on_record.get(place):
            continue
        if place not in about.on_record:
            new.append(made)
            continue
        how = read.one_of(f"twice_{name}", (REPLACE, SECOND))
        if how:
            (replaced if how == REPLACE else second).append(made)
            continue
        said = f"{about.names[place]} has a result of this visit already: {about.on_record[place]}."
        read.wrong(f"kind_{name}", f"{said} Was that mistyped, or was this a second visit?")
    _refuse_others(read, about)
    return _Results(tuple(new), tuple(replaced), tuple(second))


def _refuse_others(read: Reader, about: VisitContext) -> None:
    """A surface that is not on this one's list, as a form that lay open meanwhile may still send it."""
    for name in tuple(read.sent.names()):
        match = _KIND.fullmatch(name)
        if match and match[1] not in about.places and read.sent.text(name):
            place = int(match[1]) if match[1].isdecimal() else None
            what = about.names.get(place, "a surface that is not in this build")
            first = next(iter(about.places))
            read.wrong(
                f"kind_{first}",
                f"{about.inspection.name} does not look at {what}. Put it on the list of what it looks at first.",
            )


def _seen(read: Reader, about: VisitContext, results: tuple[NewResult, ...]) -> tuple[int, ...]:
    """Corrections of before that the inspector saw and found in order."""
    passed = {one.surface_id for one in results if one.kind == ResultKind.PASSED}
    found = []
    for one in about.to_show:
        name = f"seen_{one.id}"
        said = read.one_of(name, (SEEN, NOT_YET))
        if said == SEEN:
            found.append(one.id)
        elif said == NOT_YET and one.surface_id in passed:
            where = about.names[one.surface_id]
            read.wrong(name, f"{where} is set to passed, yet this is still to be seen. Which is it?")
    return tuple(found)


def read_visit(sent: Submitted, here: Here, about: VisitContext, keep: Keep) -> VisitRecord:
    """What came of a visit. Raises BadForm with a sentence at every field that cannot be meant."""
    read = Reader(sent)
    day = day_held(read, here.today, about.issued_on, about.booked_on, about.asked_on)
    results = _results(read, about)
    all_now = (*results.new, *results.replaced, *results.second)
    said = read_said(read, about.inspection, about.places, (*all_now, *_before(about, all_now)), keep)
    asked, fee = read_asked_besides(read), read_fee(read, here)
    on = read_paper(read, keep, about.hired)
    record = VisitRecord(
        day=day or here.today,
        results=results.new,
        corrections=tuple(each.correction for each in said),
        asked=asked,
        fee=fee,
        evidence=on.evidence,
        photo_id=on.photo_id,
        note=read.text("note"),
        signed_by=on.signed_by,
        hired_id=on.hired_id,
        replaced=results.replaced,
        second=results.second,
        seen=_seen(read, about, all_now),
    )
    _refuse_clashes(read, record, about, said)
    nothing = not (all_now or said or asked or fee or about.on_record or record.seen or read.errors)
    if nothing:
        first = place_name((about.owed or about.inspection.places)[0])
        read.wrong(f"kind_{first}", "Say how at least one surface came out, or write down that nothing was looked at.")
    read.done()
    return record


def _before(about: VisitContext, now: tuple[NewResult, ...]) -> tuple[NewResult, ...]:
    """What this visit has on record already, of surfaces that are not said again."""
    again = {one.surface_id for one in now}
    return tuple(NewResult(place, ResultKind(kind)) for place, kind in about.on_record.items() if place not in again)


def _refuse_clashes(read: Reader, record: VisitRecord, about: VisitContext, said: tuple[SaidRow, ...]) -> None:
    again = {one.surface_id: one.kind.value for one in (*record.replaced, *record.second)}
    for clash in clashes(record, dict(about.on_record) | again, about.names):
        read.wrong(f"words_{said[clash.index].row}", clash.sentence)
