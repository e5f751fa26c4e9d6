"""V3: changes from what was approved, and the sheet of one: what it touches, what was said to it."""

from collections.abc import Iterable
from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.inspections import store
from webapp.inspections.rules.facts import ChangeFacts, PlanChangeFacts
from webapp.inspections.rules.kinds import ChangeAnswer
from webapp.plan.guard import Here
from webapp.surfaces import store as surfaces
from webapp.surfaces.store import ItemFacts, SurfaceFacts
from webapp.values.dates import show_date, show_day
from webapp.values.length import field_length, show_length
from webapp.values.words import join_words

Options = tuple[tuple[str, str, str], ...]
ANSWERS = (
    (ChangeAnswer.AGREED.value, "Agreed", "as it is"),
    (ChangeAnswer.AGREED_WITH_CONDITIONS.value, "Agreed with conditions", "write them down"),
    (ChangeAnswer.NOT_NEEDED.value, "No approval needed", "they said so, or it is back as approved"),
    (ChangeAnswer.REFUSED.value, "Refused", "it goes on stopping"),
    (ChangeAnswer.NONE.value, "Asked, no answer yet", "it waits for them"),
)


@dataclass(frozen=True, slots=True)
class ChangeLine:
    what: str
    detail: str
    href: str
    settled: bool


@dataclass(frozen=True, slots=True)
class ChangesPage:
    sheet: Sheet
    open: tuple[ChangeLine, ...]
    answered: tuple[ChangeLine, ...]
    new: str


@dataclass(frozen=True, slots=True)
class ChangePage:
    sheet: Sheet
    what: str
    why: str
    stops: bool
    verdict: str
    sentence: str
    refused: bool
    facts: tuple[tuple[str, str], ...]
    paper: str
    surfaces: tuple[ChangeLine, ...]
    things: tuple[ChangeLine, ...]
    reopened: tuple[ChangeLine, ...]
    history: tuple[ChangeFacts, ...]
    move_back: str
    answer: FormState
    answers: Options
    right: FormState
    here: str
    back: str


def changes_page(session: Session, here: Here) -> ChangesPage:
    names = {one.id: one for one in surfaces.list_surfaces(session, here.build.id)}
    lines = [_line(here, one, names) for one in store.list_plan_changes(session, here.build.id)]
    return ChangesPage(
        sheet=here.sheet("V3", "Changes"),
        open=tuple(line for line in lines if not line.settled),
        answered=tuple(line for line in lines if line.settled),
        new=f"{here.base}/changes/new",
    )


def _line(here: Here, one: PlanChangeFacts, names: dict[int, SurfaceFacts]) -> ChangeLine:
    where = join_words([names[place].code for place in one.surface_ids if place in names])
    detail = f"{show_day(one.on_day, here.today)}, {where}. {_stands(here, one)}"
    return ChangeLine(one.what, detail, f"{here.base}/changes/{one.id}", one.settled)


def _stands(here: Here, one: PlanChangeFacts) -> str:
    if one.answer != ChangeAnswer.NONE:
        day = f" {show_day(one.answered_on, here.today)}" if one.answered_on else ""
        paper = "" if one.photo else ", my note"
        undone = " Moved on since." if one.undone and one.answer == ChangeAnswer.REFUSED else ""
        return f"{one.answer[:1].upper()}{one.answer[1:]}{day}{paper}.{undone}"
    if one.undone:
        return "Moved on since; nobody answered."
    return f"Asked {show_day(one.asked_on, here.today)}, no answer yet." if one.asked_on else "Not asked yet."


def place_words(item: ItemFacts, unit: str) -> str:
    parts = [f"{show_length(item.x_nm, unit)} along" if item.x_nm is not None else ""]
    parts.append(f"{show_length(item.y_nm, unit)} up" if item.y_nm is not None else "")
    return ", ".join(part for part in parts if part) or "not measured"


def change_page(
    session: Session, here: Here, change_id: int, answer: FormState | None = None, right: FormState | None = None
) -> ChangePage:
    build_id = here.build.id
    change = store.get_plan_change(session, build_id, change_id)
    names = {one.id: one for one in surfaces.list_surfaces(session, build_id)}
    items = {one.id: one for one in surfaces.list_items(session, build_id)}
    today = show_date(here.today)
    return ChangePage(
        sheet=here.sheet("V3", "Changes", change.what),
        what=change.what,
        why=change.why,
        stops=not change.settled,
        verdict=_verdict(change),
        sentence=_stands(here, change) if change.asked_on or change.answered_on or change.undone else "",
        refused=change.answer == ChangeAnswer.REFUSED and not change.settled,
        facts=_facts(change),
        paper=f"/photos/{change.photo}/1280" if change.photo else "",
        surfaces=tuple(_surface_line(here, names[place], change) for place in change.surface_ids if place in names),
        things=tuple(line for one in change.item_ids for line in _thing_lines(here, items[one], items, names)),
        reopened=tuple(_reopened_lines(session, here, change, names)),
        history=store.list_plan_change_history(session, change_id),
        move_back=_move_back(here, change, items, names),
        answer=answer or FormState.of(on=today),
        answers=ANSWERS,
        right=right
        or FormState.of(
            what=change.what,
            why=change.why,
            who=change.who_agrees,
            on=show_date(change.on_day),
            asked_on=show_date(change.asked_on) if change.asked_on else "",
        ),
        here=f"{here.base}/changes/{change_id}",
        back=f"{here.base}/changes",
    )


def _verdict(change: PlanChangeFacts) -> str:
    if change.undone:
        return "Moved on since"
    return {
        ChangeAnswer.NONE: "Not answered yet" if change.asked_on else "Nobody was asked yet",
        ChangeAnswer.AGREED: "Agreed",
        ChangeAnswer.AGREED_WITH_CONDITIONS: "Agreed with conditions",
        ChangeAnswer.NOT_NEEDED: "No approval needed",
        ChangeAnswer.REFUSED: "Refused",
    }[ChangeAnswer(change.answer)]


def _facts(change: PlanChangeFacts) -> tuple[tuple[str, str], ...]:
    listed = (
        ("Why", change.why),
        ("Changed on", show_date(change.on_day)),
        ("Who agrees", change.who_agrees),
        ("Asked", show_date(change.asked_on) if change.asked_on else "not yet"),
        ("Answered", show_date(change.answered_on) if change.answered_on else ""),
        ("In their words", change.answer_words),
        ("Rests on", "picture of the paper" if change.photo else "my note" if change.answered_on else ""),
    )
    return tuple((label, value) for label, value in listed if value)


def _surface_line(here: Here, surface: SurfaceFacts, change: PlanChangeFacts) -> ChangeLine:
    waits = "Closed, and not in order" if surface.covered_on is not None else "May not be closed"
    detail = "Free of this change." if change.settled else f"{waits} until this is answered."
    return ChangeLine(surface.name, detail, f"{here.base}/surfaces/{surface.code}/before-cover", change.settled)


def _thing_lines(
    here: Here, old: ItemFacts, items: dict[int, ItemFacts], names: dict[int, SurfaceFacts]
) -> Iterable[ChangeLine]:
    """The old state and the new one."""
    new = items.get(old.replaced_by_id or 0)
    for one, when in ((old, "Before"), (new, "Now" if new and new.replaced_on is None else "Then")):
        if one is not None:
            at = names[one.surface_id]
            detail = f"{when}: {at.name}, {place_words(one, here.build.unit)}."
            yield ChangeLine(one.label, detail, f"{here.base}/surfaces/{at.code}/items/{one.id}", settled=True)


def _reopened_lines(
    session: Session, here: Here, change: PlanChangeFacts, names: dict[int, SurfaceFacts]
) -> Iterable[ChangeLine]:
    """What is owed anew, and what was said before: history."""
    kinds = {one.id: one for one in store.list_inspections(session, here.build.id)}
    results = store.list_results(session, here.build.id)
    for one in store.list_reopened(session):
        if one.change_id != change.id:
            continue
        kind = kinds[one.inspection_id]
        where = names[one.surface_id].code if one.surface_id in names else "the whole building"
        past = [each for each in results if (one.surface_id, change.id) in each.reopened and each.state == "current"]
        last = next((each for each in reversed(past) if each.inspection_id == kind.id), None)
        was = f"{last.kind[:1].upper()}{last.kind[1:]} {show_date(last.day)}, before the change." if last else ""
        href = f"{here.base}/results/{last.id}" if last else f"{here.base}/inspections/{kind.code}"
        yield ChangeLine(f"{kind.name}, {where}", was or "Nothing was said of it before.", href, settled=False)


def _move_back(here: Here, change: PlanChangeFacts, items: dict[int, ItemFacts], names: dict[int, SurfaceFacts]) -> str:
    """Where a refused move is taken back: the form of a move, filled in with the old place."""
    if change.settled or not change.item_ids:
        return ""
    old = items[change.item_ids[0]]
    unit = here.build.unit
    x, y = (field_length(nm, unit).replace(" ", "+") if nm is not None else "" for nm in (old.x_nm, old.y_nm))
    corner = old.from_corner.replace(" ", "+")
    to = names[old.surface_id].code
    return f"{here.base}/changes/new?item={old.replaced_by_id}&to={to}&corner={corner}&x={x}&y={y}"
