"""The form of a circuit or line, new or not."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.surfaces.pages.lines import line_href
from webapp.surfaces.rules.kinds import LineKind
from webapp.surfaces.rules.line_kinds import GROUPS
from webapp.surfaces.rules.panel import MOST_POLES
from webapp.surfaces.store import LineFacts


@dataclass(frozen=True, slots=True)
class Kinds:
    """Kinds below one heading of the list."""

    label: str
    options: tuple[tuple[str, str], ...]


KINDS = tuple(Kinds(title, tuple((kind.value, kind.value.capitalize()) for kind in kinds)) for title, kinds in GROUPS)
POLES = tuple((str(number), str(number)) for number in range(1, MOST_POLES + 1))


@dataclass(frozen=True, slots=True)
class LineFormPage:
    sheet: Sheet
    form: FormState
    new: bool
    title: str
    action: str
    back: str
    kinds: tuple[Kinds, ...]
    poles: tuple[tuple[str, str], ...]


def line_form_page(session: Session, here: Here, code: str = "", form: FormState | None = None) -> LineFormPage:
    """`code` empty: a new one."""
    listing = f"{here.base}/services"
    state, title = FormState.of(kind=LineKind.CIRCUIT.value, poles="1"), "Add a circuit or line"
    action = back = listing
    if code:
        line = store.get_line(session, here.build.id, code)
        state, title, back = _state(line), f"{line.code} {line.name}", line_href(here, line.code)
        action = f"{back}/edit"
    return LineFormPage(here.sheet("W5", "Services", title), form or state, not code, title, action, back, KINDS, POLES)


def _state(line: LineFacts) -> FormState:
    return FormState.of(
        code=line.code,
        kind=line.kind,
        name=line.name,
        number=line.number,
        breaker=str(line.breaker_a) if line.breaker_a is not None else "",
        poles=str(line.poles),
        cable=line.cable,
        room=line.room,
        note=line.note,
    )
