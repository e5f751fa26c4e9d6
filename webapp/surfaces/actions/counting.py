"""Counting boxes: on the open surface, and again after the closing. A box that is not found is a question to settle."""

from datetime import date

from sqlmodel import Session

from webapp.surfaces import store
from webapp.surfaces.actions.asking import ask_question, settle_question
from webapp.surfaces.actions.making import count_boxes
from webapp.surfaces.rules.counting import ASKED_BY
from webapp.surfaces.rules.kinds import QuestionKind


def count_again(session: Session, build_id: int, surface_id: int, after: int, why: str, missing: str, on: date) -> None:
    """Note what was found after the closing. `missing` is what is to be looked for, empty when all were found.

    A buried box may hold live wires, so the question is one of danger and stays open until it is found or explained.
    """
    count_boxes(session, surface_id, after=after, why=why)
    session.flush()
    for question in store.list_questions(session, build_id):
        mine = question.surface_id == surface_id and question.asked_by == ASKED_BY and question.settled_on is None
        if mine and question.words == missing:
            return
        if mine:
            answer = f"Counted again: {after} found." if missing else f"All {after} found when counted again."
            settle_question(session, build_id, question.id, answer, max(on, question.asked_on))
    if missing:
        ask_question(session, build_id, surface_id, missing, QuestionKind.DANGER, on, ASKED_BY)
