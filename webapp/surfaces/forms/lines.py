"""What is typed about a circuit or line."""

import re
from collections.abc import Iterable
from datetime import date
from functools import partial

from webapp.core.forms import Reader, Submitted
from webapp.plan.guard import Here
from webapp.surfaces.actions import LineDraft
from webapp.surfaces.rules.kinds import LineKind
from webapp.surfaces.rules.line_kinds import FROM_PANEL, SERVICE_OF
from webapp.surfaces.rules.panel import MOST_POLES, read_spaces, show_spaces, taken
from webapp.surfaces.store import LineFacts
from webapp.values.dates import parse_day, show_date
from webapp.values.errors import BadInput

LEAST_A, MOST_A = 1, 400
POLES = tuple(str(number) for number in range(1, MOST_POLES + 1))
TAKEN_CODES = {"NEW", "PANEL"}
"""short names that would hide an address of ours"""
_CODE = re.compile(r"[A-Za-z0-9]{1,12}", re.ASCII)
_AMPERES = re.compile(r"(\d+)\s*(?:a|amps?|amperes?)?\.?", re.ASCII | re.IGNORECASE)


def read_line_code(text: str) -> str:
    """A line's short name, in capitals. Raises BadInput."""
    if not _CODE.fullmatch(text):
        raise BadInput("One to twelve letters or figures, such as C07 or CW.")
    if text.upper() in TAKEN_CODES:
        raise BadInput(f"“{text}” is a word of this program; take another.")
    return text.upper()


def read_amperes(text: str) -> int:
    """`20`, `20 A`, `20 amps`. Raises BadInput."""
    found = _AMPERES.fullmatch(text)
    if found is None:
        raise BadInput(f"“{text}” is no whole number of amperes. Write what stands on the breaker, such as 20.")
    amperes = int(found[1])
    if not LEAST_A <= amperes <= MOST_A:
        raise BadInput(f"From {LEAST_A} to {MOST_A} amperes fit here.")
    return amperes


def read_line_draft(sent: Submitted, lines: Iterable[LineFacts], known: LineFacts | None = None) -> LineDraft:
    """A circuit or line; `known` is what is on record of it, `lines` are all of the build. Raises BadForm."""
    reader = Reader(sent)
    others = [line for line in lines if known is None or line.id != known.id]
    code = reader.parsed("code", read_line_code, "Give it a short name, such as C07 or CW.") or ""
    same = next((line for line in others if line.code.casefold() == code.casefold()), None)
    if same is not None:
        ended = ", which is out of use" if same.ended_on else ""
        reader.wrong("code", f"“{same.code}” is the short name of {same.name}{ended}.")
    kind = reader.one_of("kind", tuple(LineKind), LineKind.CIRCUIT.value)
    poles = int(reader.one_of("poles", POLES, "1"))
    draft = LineDraft(
        code=code,
        kind=kind,
        name=reader.text("name", "Say what it is, such as Bench receptacles, north.", most=120),
        service=known.service if known and known.kind == kind else SERVICE_OF[LineKind(kind)],
        number=_number(reader, poles, others, in_use=known is None or known.ended_on is None),
        breaker_a=reader.parsed("breaker", read_amperes),
        poles=poles,
        cable=reader.text("cable", most=80),
        room=reader.text("room", most=80),
        note=reader.text("note", most=300),
    )
    if kind not in FROM_PANEL:
        _refuse_breaker(reader, draft)
    reader.done()
    return draft


def _number(reader: Reader, poles: int, others: Iterable[LineFacts], *, in_use: bool) -> str:
    """The spaces as they are kept. Nobody has those of a line that is out of use."""
    spaces = reader.parsed("number", partial(read_spaces, poles=poles)) or ()
    wrong = taken(spaces, (line for line in others if line.ended_on is None)) if in_use else ""
    if wrong:
        reader.wrong("number", wrong)
    return show_spaces(spaces)


def _refuse_breaker(reader: Reader, draft: LineDraft) -> None:
    sentence = "Only a circuit or a feeder has a {}. Choose one of these as its kind, or leave this empty."
    for field, value, what in (
        ("number", draft.number, "space in the panel"),
        ("breaker", draft.breaker_a, "breaker"),
    ):
        if value:
            reader.wrong(field, sentence.format(what))


def read_end(sent: Submitted, here: Here) -> date:
    """The day it went out of use, not after today. Raises BadForm."""
    reader = Reader(sent)
    on = reader.parsed("on", partial(parse_day, today=here.today)) or here.today
    if on > here.today:
        reader.wrong("on", f"{show_date(on)} is still to come.", (here.today.isoformat(),))
    reader.done()
    return on
