"""Questions about a place. A danger or code question stops until it is settled."""

from datetime import date

from sqlmodel import Session

from webapp.surfaces import store
from webapp.surfaces.actions.making import note_change
from webapp.surfaces.models import Question
from webapp.surfaces.rules.kinds import QuestionKind
from webapp.values.errors import BadInput, NotFound


def ask_question(
    session: Session,
    build_id: int,
    surface_id: int | None,
    words: str,
    kind: str,
    on: date,
    who: str = "me",
    item_id: int | None = None,
) -> Question:
    """Put a question on record. Raises BadInput without words, NotFound for a place that is not in this build."""
    if not words.strip():
        raise BadInput("Write the question as it was asked.")
    if surface_id is not None:
        store.surface_by_id(session, build_id, surface_id)
    if item_id is not None and store.get_item(session, build_id, item_id).surface_id != surface_id:
        raise NotFound("That thing is hidden in another surface.")
    made = Question(
        build_id=build_id,
        surface_id=surface_id,
        item_id=item_id,
        words=words.strip(),
        kind=QuestionKind(kind).value,
        asked_on=on,
        asked_by=who.strip() or "me",
    )
    session.add(made)
    session.flush()
    return made


def settle_question(session: Session, build_id: int, question_id: int, answer: str, on: date) -> None:
    """Settle a question with its answer: what was measured or looked at. Raises BadInput without one."""
    asked = store.get_question(session, build_id, question_id)
    if not answer.strip():
        raise BadInput("Write what settles it: what you measured, saw or were told, and by whom.")
    if on < asked.asked_on:
        raise BadInput("It cannot be settled before it was asked.")
    row = session.get_one(Question, question_id)
    if row.answer and row.answer != answer.strip():
        note_change(session, build_id, "question", question_id, "answer", row.answer, answer.strip())
    row.answer, row.settled_on = answer.strip(), on
    session.add(row)


def reopen_question(session: Session, build_id: int, question_id: int, why: str) -> None:
    """The answer does not hold: the question is open again, and the answer stays readable."""
    if not why.strip():
        raise BadInput("Write why the answer does not hold.")
    asked = store.get_question(session, build_id, question_id)
    if asked.settled_on is None:
        return
    settled = f"{asked.answer} ({asked.settled_on.isoformat()})"
    note_change(session, build_id, "question", question_id, "answer", settled, f"open again: {why.strip()}")
    row = session.get_one(Question, question_id)
    row.answer, row.settled_on = "", None
    session.add(row)
