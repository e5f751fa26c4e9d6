"""What the builder does with permits, visits and results. None of these commits; nothing here says "may be covered"."""

from webapp.inspections.actions.changing import answer_change, correct_change, move_thing, record_change
from webapp.inspections.actions.corrections import (
    amend_correction,
    clear_correction,
    correction_done,
    reopen_correction,
    send_picture,
)
from webapp.inspections.actions.lists import (
    add_asked_item,
    add_inspection,
    add_permit,
    asked_item_done,
    drop_asked_item,
    edit_inspection,
    edit_permit,
    order_inspections,
)
from webapp.inspections.actions.results import correct_result, not_ready, record_result, withdraw_result
from webapp.inspections.actions.visits import book_visit, cancel_visit, correct_visit_day, move_visit, pay_fee

__all__ = [
    "add_asked_item",
    "add_inspection",
    "add_permit",
    "amend_correction",
    "answer_change",
    "asked_item_done",
    "book_visit",
    "cancel_visit",
    "clear_correction",
    "correct_change",
    "correct_result",
    "correct_visit_day",
    "correction_done",
    "drop_asked_item",
    "edit_inspection",
    "edit_permit",
    "move_thing",
    "move_visit",
    "not_ready",
    "order_inspections",
    "pay_fee",
    "record_change",
    "record_result",
    "reopen_correction",
    "send_picture",
    "withdraw_result",
]
