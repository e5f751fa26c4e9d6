"""One thing by its name in the address. A build has some dozens, so it is picked from the list of its kind."""

from sqlmodel import Session

from webapp.surfaces.store.facts import (
    CoverFacts,
    ItemFacts,
    LineFacts,
    OpeningFacts,
    QuestionFacts,
    RunFacts,
    SlotFacts,
    SurfaceFacts,
    TieFacts,
)
from webapp.surfaces.store.lists import (
    list_covers,
    list_items,
    list_lines,
    list_openings,
    list_questions,
    list_runs,
    list_slots,
    list_surfaces,
    list_ties,
)
from webapp.values.errors import NotFound


def get_surface(session: Session, build_id: int, code: str) -> SurfaceFacts:
    """The surface with this code, capitals or not. Raises NotFound."""
    for surface in list_surfaces(session, build_id):
        if surface.code.casefold() == code.casefold():
            return surface
    raise NotFound(f"There is no surface “{code}” in this build.")


def surface_by_id(session: Session, build_id: int, surface_id: int) -> SurfaceFacts:
    for surface in list_surfaces(session, build_id):
        if surface.id == surface_id:
            return surface
    raise NotFound("There is no such surface in this build.")


def get_item(session: Session, build_id: int, item_id: int) -> ItemFacts:
    for item in list_items(session, build_id):
        if item.id == item_id:
            return item
    raise NotFound("There is no such thing in this build's surfaces.")


def get_line(session: Session, build_id: int, code: str) -> LineFacts:
    """The circuit or line with this short name, capitals or not. Raises NotFound."""
    for line in list_lines(session, build_id):
        if line.code.casefold() == code.casefold():
            return line
    raise NotFound(f"There is no circuit or line “{code}” in this build.")


def get_opening(session: Session, build_id: int, opening_id: int) -> OpeningFacts:
    for opening in list_openings(session, build_id):
        if opening.id == opening_id:
            return opening
    raise NotFound("There is no such opening in this build's surfaces.")


def openings_of(session: Session, build_id: int, surface_id: int) -> tuple[OpeningFacts, ...]:
    return tuple(one for one in list_openings(session, build_id) if one.surface_id == surface_id)


def opening_on(session: Session, build_id: int, surface: SurfaceFacts, opening_id: int) -> OpeningFacts:
    """One of this surface. Raises NotFound for one of another."""
    opening = get_opening(session, build_id, opening_id)
    _refuse_elsewhere(opening.surface_id, surface)
    return opening


def run_on(session: Session, build_id: int, surface: SurfaceFacts, run_id: int) -> RunFacts:
    """One of this surface. Raises NotFound for one of another."""
    run = get_run(session, build_id, run_id)
    _refuse_elsewhere(run.surface_id, surface)
    return run


def around(session: Session, build_id: int, surface_id: int) -> tuple[tuple[OpeningFacts, ...], tuple[ItemFacts, ...]]:
    """What else is on a surface when something is placed on it: its openings and hidden things, also those gone."""
    items = tuple(one for one in list_items(session, build_id) if one.surface_id == surface_id)
    return openings_of(session, build_id, surface_id), items


def item_on(session: Session, build_id: int, surface: SurfaceFacts, item_id: int) -> ItemFacts:
    """One of this surface. Raises NotFound for one of another."""
    item = get_item(session, build_id, item_id)
    _refuse_elsewhere(item.surface_id, surface)
    return item


def _refuse_elsewhere(surface_id: int, surface: SurfaceFacts) -> None:
    if surface_id != surface.id:
        raise NotFound(f"There is no such thing on {surface.name}.")


def get_run(session: Session, build_id: int, run_id: int) -> RunFacts:
    for run in list_runs(session, build_id):
        if run.id == run_id:
            return run
    raise NotFound("There is no such run on this build's surfaces.")


def get_tie(session: Session, build_id: int, tie_id: int) -> TieFacts:
    for tie in list_ties(session, build_id):
        if tie.id == tie_id:
            return tie
    raise NotFound("There is no such tied point in this build.")


def tie_on(session: Session, build_id: int, surface: SurfaceFacts, tie_id: int) -> TieFacts:
    """One of this surface. Raises NotFound for one of another."""
    tie = get_tie(session, build_id, tie_id)
    _refuse_elsewhere(tie.surface_id, surface)
    return tie


def ties_of(session: Session, build_id: int, surface_id: int) -> tuple[TieFacts, ...]:
    return tuple(one for one in list_ties(session, build_id) if one.surface_id == surface_id)


def get_slot(session: Session, build_id: int, slot_id: int) -> SlotFacts:
    for slot in list_slots(session, build_id):
        if slot.id == slot_id:
            return slot
    raise NotFound("There is no such owed picture in this build.")


def get_question(session: Session, build_id: int, question_id: int) -> QuestionFacts:
    for question in list_questions(session, build_id):
        if question.id == question_id:
            return question
    raise NotFound("There is no such question in this build.")


def get_mistake(session: Session, build_id: int, cover_id: int) -> CoverFacts:
    """A covering by mistake. Raises NotFound for what is none, or none of this build."""
    for cover in list_covers(session, build_id):
        if cover.id == cover_id and cover.by_mistake:
            return cover
    raise NotFound("There is no such covering here.")
