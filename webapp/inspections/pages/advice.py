"""V5: what was said besides results: by whom, about which place, in which form. It passes nothing."""

from collections.abc import Iterable
from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.inspections import forms, store
from webapp.inspections.pages.book import Book, read_book
from webapp.inspections.rules.facts import AdviceFacts, ChangeFacts
from webapp.inspections.rules.kinds import AdviceForm
from webapp.plan.guard import Here
from webapp.values.dates import show_date

Choices = tuple[tuple[str, str], ...]
FORMS: Choices = (
    (AdviceForm.SAID.value, "Said"),
    (AdviceForm.WRITTEN.value, "Written"),
    (AdviceForm.PRINT.value, "Found in print"),
)
USUAL = ("inspector", "counter clerk")
MOST_ROLES = 5


@dataclass(frozen=True, slots=True)
class AdviceLine:
    words: str
    detail: str
    href: str
    ended: bool


@dataclass(frozen=True, slots=True)
class AdviceListPage:
    """`stands` the latest first, `ended` what was taken back."""

    sheet: Sheet
    stands: tuple[AdviceLine, ...]
    ended: tuple[AdviceLine, ...]
    new: str


@dataclass(frozen=True, slots=True)
class AdviceFormPage:
    """One word to write down, or one on record with its history; `ended` says that it was taken back."""

    sheet: Sheet
    heading: str
    line: AdviceLine | None
    ended: str
    changes: tuple[ChangeFacts, ...]
    action: str
    take_back: str
    back: str
    roles: Choices
    forms: Choices
    surfaces: Choices
    inspections: Choices
    more: bool
    """the fields besides words and role are shown at once"""
    form: FormState


def advice_lines(book: Book, which: Iterable[AdviceFacts], *, named: bool = True) -> tuple[AdviceLine, ...]:
    """`named`: with the place and the inspection it is about."""
    return tuple(_line(book, one, named) for one in which)


def _line(book: Book, one: AdviceFacts, named: bool) -> AdviceLine:
    about = [book.name(one.surface_id)] if one.surface_id else []
    if one.inspection_id:
        about.append(book.inspection(one.inspection_id).name)
    said = f"{one.who[:1].upper()}{one.who[1:]}, {show_date(one.day)}, {one.form}"
    parts = [said, ", ".join(about) if named else "", f"Used for: {one.used_for}" if one.used_for else ""]
    if one.ended_on:
        parts.append(f"Taken back {show_date(one.ended_on)}: {one.ended_why}")
    detail = ". ".join(part.rstrip(".") for part in parts if part)
    return AdviceLine(f"“{one.words}”", f"{detail}.", f"{book.base}/advice/{one.id}", one.ended_on is not None)


def advice_of(
    session: Session, here: Here, book: Book, *, surface_id: int | None = None, inspection_id: int | None = None
) -> tuple[AdviceLine, ...]:
    """What was said of one surface or about one inspection; what was taken back last."""
    found = [
        one
        for one in store.list_advice(session, here.build.id)
        if (surface_id is not None and one.surface_id == surface_id)
        or (inspection_id is not None and one.inspection_id == inspection_id)
    ]
    return advice_lines(book, sorted(found, key=lambda one: one.ended_on is not None))


def advice_list_page(session: Session, here: Here) -> AdviceListPage:
    book, found = read_book(session, here), store.list_advice(session, here.build.id)
    return AdviceListPage(
        sheet=here.sheet("V5", "What was said"),
        stands=advice_lines(book, (one for one in found if one.ended_on is None)),
        ended=advice_lines(book, (one for one in found if one.ended_on is not None)),
        new=f"{here.base}/advice/new",
    )


def advice_form_page(
    session: Session, here: Here, advice_id: int = 0, form: FormState | None = None, about: FormState | None = None
) -> AdviceFormPage:
    """A new one, filled from `about`, or the one of that id."""
    book, listed = read_book(session, here), f"{here.base}/advice"
    one = store.get_advice(session, here.build.id, advice_id) if advice_id else None
    line = advice_lines(book, (one,))[0] if one else None
    stands = forms.advice_state(one, here.today) if one else about
    blank = FormState.of(day=here.today.isoformat(), form=AdviceForm.SAID.value, who=USUAL[0])
    state = form or stands or blank
    ended = f"Taken back on {show_date(one.ended_on)}. It stays readable." if one and one.ended_on else ""
    return AdviceFormPage(
        sheet=here.sheet("V5", "What was said", "A word on record" if one else "Write down what was said"),
        heading=line.words if line else "Write down what was said",
        line=line,
        ended=ended,
        changes=store.list_advice_changes(session, advice_id) if one else (),
        action=f"{listed}/{advice_id}" if one else listed,
        take_back=f"{listed}/{advice_id}/end" if one and not one.ended_on else "",
        back=listed,
        roles=_roles(session, here, state.value("who")),
        forms=FORMS,
        surfaces=(("", "None"), *((str(each.id), each.name) for each in book.surfaces.values())),
        inspections=(("", "None"), *((str(each.id), each.name) for each in book.inspections)),
        more=one is not None or any(state.error(name) for name in ("day", "used_for")),
        form=state,
    )


def _roles(session: Session, here: Here, chosen: str) -> Choices:
    """Those who said something before, the latest first, after them the usual ones."""
    said = (one.who for one in store.list_advice(session, here.build.id))
    known = list(dict.fromkeys((*([chosen] if chosen else []), *said, *USUAL)))[:MOST_ROLES]
    return tuple((one, f"{one[:1].upper()}{one[1:]}") for one in known)


def blank_about(here: Here, surface: str, inspection: str, who: str) -> FormState:
    """The form as it is opened from a surface, an inspection or a visit."""
    return FormState.of(
        day=here.today.isoformat(),
        form=AdviceForm.SAID.value,
        who=who or USUAL[0],
        surface=surface,
        inspection=inspection,
    )


def names_of(session: Session, here: Here) -> dict[str, dict[int | None, str]]:
    """Words for the ids that a piece of advice holds, by field."""
    book = read_book(session, here)
    places: dict[int | None, str] = {each.id: each.name for each in book.surfaces.values()}
    kinds: dict[int | None, str] = {each.id: each.name for each in book.inspections}
    return {"surface_id": places | {None: "none"}, "inspection_id": kinds | {None: "none"}}
