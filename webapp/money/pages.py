"""What the sheets of money show."""

from dataclasses import dataclass
from datetime import date
from urllib.parse import urlencode

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.money import forms, store
from webapp.money.rules.lines import KINDS
from webapp.money.store import SpendChangeFacts, SpendFacts, Sum
from webapp.plan import store as plan
from webapp.plan.guard import Here
from webapp.values.errors import NotFound
from webapp.values.money import show_amount
from webapp.values.words import plural

LOOSE = "none"
AT_ONCE = 60
"""lines on one page of the list"""
Choices = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class SumLine:
    """One sum and the way to the lines that make it up."""

    label: str
    cents: int
    lines: int
    href: str
    current: bool


@dataclass(frozen=True, slots=True)
class SpendPage:
    """M2. `lines` are of the chosen phase or kind; `lines_cents` is the sum of all of these, the figure followed."""

    sheet: Sheet
    currency: str
    today: date
    total_cents: int
    given_cents: int
    by_phase: tuple[SumLine, ...]
    by_kind: tuple[SumLine, ...]
    chosen: str
    lines: tuple[SpendFacts, ...]
    lines_cents: int
    older: str
    newer: str
    fees: str
    """where the fees not paid yet are listed"""
    here: str
    form: FormState
    kinds: Choices
    phases: Choices


@dataclass(frozen=True, slots=True)
class SpendLinePage:
    """One line with its receipt, its form and what it said before."""

    sheet: Sheet
    currency: str
    line: SpendFacts
    changes: tuple[SpendChangeFacts, ...]
    back: str
    here: str
    form: FormState
    kinds: Choices
    phases: Choices


def phase_choices(session: Session, build_id: int) -> dict[str, int]:
    """What a form may send as phase, to the phase's id."""
    return {str(phase.id): phase.id for phase in plan.list_phases(session, build_id)}


def spend_page(
    session: Session, here: Here, kind: str = "", phase: str = "", turn: int = 1, form: FormState | None = None
) -> SpendPage:
    """`kind` and `phase` narrow the list, `turn` counts its pages; raises NotFound for one that is not there."""
    phases = plan.list_phases(session, here.build.id)
    titles = {str(each.id): each.title for each in phases} | {LOOSE: "No phase"}
    if (kind and kind not in KINDS) or (phase and phase not in titles):
        raise NotFound("There is no such part of the spend here.")
    phase_id = int(phase) if phase.isdecimal() else None
    first, path = (turn - 1) * AT_ONCE, f"{here.base}/spend"
    found = store.account(session, here.build.id, kind, phase_id, phase == LOOSE, first, AT_ONCE)
    return SpendPage(
        sheet=here.sheet("M2", "Spend"),
        currency=here.build.currency,
        today=here.today,
        total_cents=sum(each.cents for each in found.by_phase),
        given_cents=found.given_cents,
        by_phase=tuple(_sum_line(path, "phase", each, phase) for each in found.by_phase),
        by_kind=tuple(_sum_line(path, "kind", each, kind) for each in found.by_kind),
        chosen=titles.get(phase, kind.capitalize()),
        lines=found.lines,
        lines_cents=found.cents,
        older=_turn(path, kind, phase, turn + 1) if found.count > first + AT_ONCE else "",
        newer=_turn(path, kind, phase, turn - 1) if turn > 1 else "",
        fees=f"{here.base}/fees",
        here=path,
        form=form or forms.blank(here.today),
        kinds=_kinds(),
        phases=(("", "None"), *((str(each.id), each.title) for each in phases)),
    )


def spend_line_page(session: Session, here: Here, spend_id: int, form: FormState | None = None) -> SpendLinePage:
    line = store.get_spend(session, here.build.id, spend_id)
    phases = plan.list_phases(session, here.build.id)
    return SpendLinePage(
        sheet=here.sheet("M2", "Spend", f"{line.what}: {show_amount(line.total_cents)}"),
        currency=here.build.currency,
        line=line,
        changes=store.list_spend_changes(session, spend_id),
        back=f"{here.base}/spend",
        here=f"{here.base}/spend/{spend_id}",
        form=form or forms.filled(line),
        kinds=_kinds(),
        phases=(("", "None"), *((str(each.id), each.title) for each in phases)),
    )


def saved_words(line_total: int, what: str, currency: str) -> str:
    return f"“{what}”, {currency} {show_amount(line_total)}, is written down."


def amended_words(changed: int) -> str:
    if not changed:
        return "Nothing was different, so nothing was changed."
    return f"Put right: {plural(changed, 'part')}. What stood there before is kept below."


def _kinds() -> Choices:
    return tuple((kind, kind.capitalize()) for kind in KINDS)


def _turn(path: str, kind: str, phase: str, turn: int) -> str:
    asked = {"kind": kind, "phase": phase, "turn": str(turn) if turn > 1 else ""}
    return f"{path}?{urlencode({name: value for name, value in asked.items() if value})}#lines"


def _sum_line(path: str, name: str, found: Sum, chosen: str) -> SumLine:
    key = LOOSE if found.key is None else str(found.key)
    label = found.label if name == "phase" else found.label.capitalize()
    return SumLine(label, found.cents, found.lines, f"{path}?{urlencode({name: key})}#lines", key == chosen)
