"""What was said to be put right, row by row: a notice holds several, and without a script a row is asked for."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from webapp.core.forms import FormState, Reader, Submitted
from webapp.inspections.forms.fields import Keep
from webapp.inspections.rules.facts import InspectionFacts
from webapp.inspections.rules.kinds import ClearsBy, CorrectionForm, ResultKind
from webapp.inspections.rules.record import NewCorrection, NewResult
from webapp.values.duration import parse_hours

MOST_ROWS = 40
FIELDS = ("words", "place", "rule", "likely")
_ROW = re.compile(r"(?:words|place|rule|likely|on|before)_(\d{1,2})(?:_kept)?", re.ASCII)


@dataclass(frozen=True, slots=True)
class SaidRow:
    """One correction and the number of its row on the form."""

    row: int
    correction: NewCorrection


def rows_of(state: FormState) -> int:
    """How many rows are shown: one, and as many as hold something or have an error."""
    named = (*(name for name, values in state.typed.items() if any(values)), *state.errors)
    found = [int(match[1]) for name in named if (match := _ROW.fullmatch(name))]
    return max([1, *found])


def one_row_more(sent: Submitted, keep: Keep) -> tuple[FormState, int]:
    """What was typed so far, its pictures kept, and the number of rows with one added: for a phone without scripts."""
    read = Reader(sent)
    shown = rows_of(FormState(sent.typed()))
    for name in ("paper", *(f"before_{row}" for row in range(1, shown + 1))):
        read.file(name, keep)
    state = read.state()
    return state, min(max(rows_of(state), _shown(sent)) + 1, MOST_ROWS)


def _shown(sent: Submitted) -> int:
    return int(sent.text("rows")) if sent.text("rows").isdecimal() else 1


def read_said(
    read: Reader,
    inspection: InspectionFacts,
    places: Mapping[str, int | None],
    results: tuple[NewResult, ...],
    keep: Keep,
) -> tuple[SaidRow, ...]:
    """Each row that has words. `results`: what is said of each surface now, which settles what is left open."""
    rows = range(1, rows_of(FormState(read.sent.typed())) + 1)
    found = (_row(read, row, inspection, places, results, keep) for row in rows)
    return tuple(one for one in found if one is not None)


def _row(
    read: Reader,
    row: int,
    inspection: InspectionFacts,
    places: Mapping[str, int | None],
    results: tuple[NewResult, ...],
    keep: Keep,
) -> SaidRow | None:
    words, likely = read.text(f"words_{row}"), read.parsed(f"likely_{row}", parse_hours)
    place, rule = read.text(f"place_{row}", most=200), read.text(f"rule_{row}", most=200)
    photo_id = read.file(f"before_{row}", keep)
    form = read.one_of(f"form_{row}", list(CorrectionForm), CorrectionForm.WRITTEN.value)
    clears = read.one_of(f"clears_{row}", list(ClearsBy))
    if not words:
        if place or rule or likely or photo_id or clears or read.sent.text(f"on_{row}"):
            read.wrong(f"words_{row}", "Write what was said, in the inspector’s words.")
        return None
    on = _surface(read, row, inspection, places, results)
    if not on:
        read.wrong(f"on_{row}", "On which surface is it?")
        return None
    kind = next((one.kind for one in results if one.surface_id == places[on]), None)
    by = ClearsBy(clears) if clears else _usual(kind)
    return SaidRow(row, NewCorrection(words, places[on], place, CorrectionForm(form), rule, by, likely, photo_id))


def _usual(kind: ResultKind | None) -> ClearsBy:
    """Small items on my honour clear by my word; all else is seen again unless somebody said otherwise."""
    return ClearsBy.OWN_WORD if kind == ResultKind.SMALL_ITEMS else ClearsBy.REVISIT


def _surface(
    read: Reader,
    row: int,
    inspection: InspectionFacts,
    places: Mapping[str, int | None],
    results: tuple[NewResult, ...],
) -> str:
    """The only surface, the one chosen, or else the only one of which something was held."""
    sent = read.sent.text(f"on_{row}")
    if sent and sent not in places:
        read.wrong(f"on_{row}", f"{inspection.name} does not look at that surface. Choose one of these.")
        return ""
    if sent:
        return sent
    if len(places) == 1:
        return next(iter(places))
    held = {one.surface_id for one in results if one.kind not in {ResultKind.PASSED, ResultKind.NOT_LOOKED_AT}}
    named = [name for name, place in places.items() if place in held]
    return named[0] if len(named) == 1 else ""
