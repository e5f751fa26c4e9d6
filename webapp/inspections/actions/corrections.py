"""Putting a correction right, having it seen, and saying by whose word it is cleared. Each step stays readable."""

from datetime import date
from typing import NoReturn

from sqlmodel import Session

from webapp.core import clock
from webapp.inspections import store
from webapp.inspections.models import Correction, CorrectionChange
from webapp.inspections.rules.corrections import clearing, loosens
from webapp.inspections.rules.facts import CorrectionFacts
from webapp.inspections.rules.kinds import ClearsBy, CorrectionForm, CorrectionState
from webapp.surfaces.actions import pin_picture, place_picture
from webapp.surfaces.store import places_of_photos
from webapp.values.errors import RuleBroken
from webapp.values.verdict import Reason, Verdict

ME = "me"


def _open(session: Session, build_id: int, correction_id: int) -> tuple[CorrectionFacts, Correction]:
    facts = store.get_correction(session, build_id, correction_id)
    cleared = clearing(facts, store.list_results_of(session, facts.inspection_id))
    if cleared:
        _refuse(f"This one is cleared already, by {cleared.by}.")
    return facts, session.get_one(Correction, correction_id)


def _refuse(sentence: str) -> NoReturn:
    raise RuleBroken(Verdict((Reason(sentence),)), heading="Not changed")


def _move_on(
    session: Session, correction: Correction, state: CorrectionState, on: date, why: str = "", was: str = ""
) -> None:
    change = CorrectionChange(
        correction_id=correction.row_id,
        was=was or correction.state,
        became=state.value,
        on_day=on,
        why=why,
        at=clock.now(),
    )
    session.add(change)
    correction.state = state.value
    session.add(correction)


def correction_done(
    session: Session, build_id: int, correction_id: int, on: date, photo_id: int | None = None, note: str = ""
) -> None:
    """The work is done; that is not cleared. Keeps an after picture when there is one."""
    _, correction = _open(session, build_id, correction_id)
    correction.done_on = on
    correction.after_photo_id = photo_id or correction.after_photo_id
    _move_on(session, correction, CorrectionState.DONE, on, note)
    show_pictures(session, correction)


def send_picture(
    session: Session, build_id: int, correction_id: int, on: date, photo_id: int | None = None, note: str = ""
) -> None:
    """A picture went to the inspector; the answer is still owed. Raises RuleBroken when there is no picture to send."""
    facts, correction = _open(session, build_id, correction_id)
    if facts.clears_by != ClearsBy.PICTURE:
        _refuse(f"This one clears by {facts.clears_by}, so a picture does not settle it.")
    correction.after_photo_id = photo_id or correction.after_photo_id
    if correction.after_photo_id is None:
        _refuse("There is no picture of it yet. Take one of what was done, and say that it was sent.")
    correction.done_on = correction.done_on or on
    _move_on(session, correction, CorrectionState.SENT, on, note)
    show_pictures(session, correction)


def clear_correction(
    session: Session, build_id: int, correction_id: int, on: date, who: str = ME, said: str = ""
) -> None:
    """Cleared by my own word where the inspector left it to that, else by the authority's: who, when, how.

    Raises RuleBroken when my word is not what clears it.
    """
    facts, correction = _open(session, build_id, correction_id)
    mine = who.strip().lower() in {"", ME, "myself", "i"}
    if mine and facts.clears_by != ClearsBy.OWN_WORD:
        _refuse(f"This one clears by {facts.clears_by}. Write down who cleared it, and how they said so.")
    if not mine and not said:
        _refuse("Write down how they said so: by message, by letter, on the phone.")
    correction.cleared_on = on
    correction.cleared_by = ME if mine else who
    correction.done_on = correction.done_on or on
    _move_on(session, correction, CorrectionState.CLEARED, on, said)


def reopen_correction(session: Session, build_id: int, correction_id: int, on: date, why: str) -> None:
    """It was not done, or not cleared, after all. What it said before stays in its history."""
    facts = store.get_correction(session, build_id, correction_id)
    correction = session.get_one(Correction, correction_id)
    if facts.state == CorrectionState.OPEN:
        _refuse("This one is open already.")
    was = f"{facts.state} by {facts.cleared_by}" if facts.cleared_by else facts.state
    correction.done_on = correction.cleared_on = None
    correction.cleared_by = ""
    _move_on(session, correction, CorrectionState.OPEN, on, why, was)


def amend_correction(
    session: Session,
    build_id: int,
    correction_id: int,
    on: date,
    words: str,
    place: str,
    form: CorrectionForm,
    rule_cited: str,
    clears_by: ClearsBy,
    before_photo_id: int | None = None,
    who_said: str = "",
    likely_min: int | None = None,
) -> int:
    """Put the wording right; what each part said before is kept. Returns how many parts changed.

    `likely_min`: how long it may take, left as it is when None.
    Raises RuleBroken for a laxer way of clearing it when nobody is named who said so.
    """
    facts, correction = _open(session, build_id, correction_id)
    if loosens(facts.clears_by, clears_by) and not who_said.strip():
        _refuse(f"This one clears by {facts.clears_by}. Write down who said that it may be cleared otherwise.")
    becomes = {
        "words": words,
        "place": place,
        "form": form.value,
        "rule_cited": rule_cited,
        "clears_by": clears_by.value,
    }
    changed = 0
    for name, new in becomes.items():
        old = getattr(correction, name)
        if old == new:
            continue
        label = name.replace("_", " ")
        change = CorrectionChange(
            correction_id=correction_id,
            was=f"{label}: {old or 'none'}",
            became=f"{label}: {new or 'none'}",
            on_day=on,
            why=f"said by {who_said.strip()}" if name == "clears_by" and who_said.strip() else "put right by me",
            at=clock.now(),
        )
        session.add(change)
        setattr(correction, name, new)
        changed += 1
    if likely_min not in {None, correction.likely_min}:
        correction.likely_min, changed = likely_min, changed + 1
    correction.before_photo_id = before_photo_id or correction.before_photo_id
    session.add(correction)
    show_pictures(session, correction)
    return changed


def place_correction(
    session: Session, build_id: int, correction_id: int, at: tuple[int, int], on: date, was: str, became: str
) -> None:
    """Where it is on the drawing of its surface; its pictures are pinned there. `was`, `became`: the place in words.

    Raises RuleBroken for one of the whole building, which has no drawing.
    """
    facts = store.get_correction(session, build_id, correction_id)
    if facts.surface_id is None:
        _refuse("This one is about the whole building. Change its words to say where it is.")
    correction = session.get_one(Correction, correction_id)
    old = (correction.x_nm, correction.y_nm)
    if old != at:
        change = CorrectionChange(
            correction_id=correction_id,
            was=f"place: {was or 'none'}",
            became=f"place: {became}",
            on_day=on,
            why="on the drawing",
            at=clock.now(),
        )
        session.add(change)
    correction.x_nm, correction.y_nm = at
    session.add(correction)
    show_pictures(session, correction, old)


def show_pictures(session: Session, correction: Correction, was: tuple[int | None, int | None] = (None, None)) -> None:
    """Put its pictures before and after with its surface, pinned beside it where it has a place.

    A pin that the builder set elsewhere stays; `was`: where the correction stood before, with its pictures.
    """
    if correction.surface_id is None:
        return
    for photo_id in (correction.before_photo_id, correction.after_photo_id):
        if photo_id is not None:
            _show_picture(session, correction, photo_id, was)


def _show_picture(session: Session, correction: Correction, photo_id: int, was: tuple[int | None, int | None]) -> None:
    build_id, surface_id = correction.build_id, correction.surface_id
    if surface_id is None:
        return
    places = [one for one in places_of_photos(session, build_id, (photo_id,)) if one.surface_id == surface_id]
    if not places:
        place_picture(session, build_id, photo_id, surface_id)
        session.flush()
    pinned = {(one.x_nm, one.y_nm) for one in places} - {(None, None), was}
    if correction.x_nm is not None and correction.y_nm is not None and not pinned:
        pin_picture(session, build_id, photo_id, surface_id, (correction.x_nm, correction.y_nm))
