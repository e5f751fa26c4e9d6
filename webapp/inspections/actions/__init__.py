"""What the builder does with permits, visits and results. None of these commits; nothing here says "may be covered"."""

from webapp.inspections.actions.advice import add_advice, edit_advice, end_advice
from webapp.inspections.actions.calendar import end_calendar_keys, make_calendar_key
from webapp.inspections.actions.changing import answer_change, correct_change, move_thing, record_change
from webapp.inspections.actions.corrections import (
    amend_correction,
    clear_correction,
    correction_done,
    place_correction,
    reopen_correction,
    send_picture,
)
from webapp.inspections.actions.evidence import attach_paper
from webapp.inspections.actions.extensions import amend_extension, answer_extension, ask_extension, withdraw_extension
from webapp.inspections.actions.fees import correct_fee
from webapp.inspections.actions.lists import (
    add_asked_item,
    add_inspection,
    asked_item_done,
    drop_asked_item,
    edit_inspection,
    order_inspections,
)
from webapp.inspections.actions.offices import add_closed_day, add_office, drop_closed_day, edit_office
from webapp.inspections.actions.permits import add_permit, edit_permit
from webapp.inspections.actions.put_right import correct_result, withdraw_result
from webapp.inspections.actions.results import not_ready, record_result
from webapp.inspections.actions.visits import book_visit, cancel_visit, correct_visit_day, move_visit, pay_fee

__all__ = [
    "add_advice",
    "add_asked_item",
    "add_closed_day",
    "add_inspection",
    "add_office",
    "add_permit",
    "amend_correction",
    "amend_extension",
    "answer_change",
    "answer_extension",
    "ask_extension",
    "asked_item_done",
    "attach_paper",
    "book_visit",
    "cancel_visit",
    "clear_correction",
    "correct_change",
    "correct_fee",
    "correct_result",
    "correct_visit_day",
    "correction_done",
    "drop_asked_item",
    "drop_closed_day",
    "edit_advice",
    "edit_inspection",
    "edit_office",
    "edit_permit",
    "end_advice",
    "end_calendar_keys",
    "make_calendar_key",
    "move_thing",
    "move_visit",
    "not_ready",
    "order_inspections",
    "pay_fee",
    "place_correction",
    "record_change",
    "record_result",
    "reopen_correction",
    "send_picture",
    "withdraw_extension",
    "withdraw_result",
]
