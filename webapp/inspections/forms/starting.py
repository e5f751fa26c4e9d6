"""The list to begin with, as ticked and put in the builder's own words."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from webapp.core.forms import FormState, Reader, Submitted
from webapp.inspections.rules.record import InspectionForm
from webapp.inspections.rules.starting import (
    CHECKED_AS,
    LOOKED_AT,
    STARTING,
    Known,
    Start,
    guessed_permit,
    likely,
    short_name,
)
from webapp.values.own_words import own


@dataclass(frozen=True, slots=True)
class Ground:
    """What the list is offered against. `surfaces`: id and kind, in the builder's order; `permits`: id and name."""

    known: Known
    permits: tuple[tuple[int, str], ...]
    surfaces: tuple[tuple[int, str], ...]
    taken: frozenset[str]
    """short names in use"""


def starting_state(ground: Ground) -> FormState:
    """The list as first shown: likely lines ticked, permits guessed by their names, surfaces by their kinds."""
    typed: dict[str, tuple[str, ...]] = {}
    for line in STARTING:
        permit = guessed_permit(line, ground.permits)
        typed[f"name_{line.key}"] = (line.name,)
        typed[f"permit_{line.key}"] = (str(permit or ""),)
        typed[f"on_{line.key}"] = tuple(str(number) for number, kind in ground.surfaces if kind in LOOKED_AT[line.on])
        if likely(line, ground.known):
            typed[f"take_{line.key}"] = ("yes",)
    return FormState(typed)


def read_starting(sent: Submitted, ground: Ground) -> tuple[InspectionForm, ...]:
    """The ticked lines as offered. Raises BadForm for one without name or permit, two of one name, or none at all."""
    read = Reader(sent)
    permits = {str(number): number for number, _ in ground.permits}
    surfaces = {str(number): number for number, _ in ground.surfaces}
    taken, names, made = set(ground.taken), set[str](), []
    for line in STARTING:
        if not read.flag(f"take_{line.key}"):
            continue
        name = read.text(f"name_{line.key}", "What is it called here? Or take the tick away.", most=120)
        permit = read.one_of(f"permit_{line.key}", permits, required=f"Under which {own('permit')} is it?")
        chosen = read.many_of(f"on_{line.key}", surfaces)
        if name and name.casefold() in names:
            read.wrong(f"name_{line.key}", f"There are two called “{name}”. Give one of them another name.")
        names.add(name.casefold())
        code = short_name(name, taken)
        taken.add(code)
        made.append(_form(line, permits.get(permit, 0), code, name, (surfaces[each] for each in chosen)))
    if not made:
        read.wrong(f"take_{STARTING[0].key}", "Nothing is ticked. Tick what your card or handout asks for.")
    read.done()
    return tuple(made)


def _form(line: Start, permit_id: int, code: str, name: str, surface_ids: Iterable[int]) -> InspectionForm:
    return InspectionForm(
        permit_id=permit_id,
        code=code,
        name=name,
        surface_ids=tuple(surface_ids),
        must_be_ready=line.ready,
        before_what=line.before,
        source=line.source,
        holds_cover=line.holds,
        trade=CHECKED_AS.get(line.trade, line.trade),
    )


def named_surfaces(names: Mapping[int, str], chosen: Iterable[str]) -> str:
    """ "N, E, S, W, C", or that it is the whole building."""
    found = [names[int(each)] for each in chosen if each.isdecimal() and int(each) in names]
    return ", ".join(found) or "the whole building"
