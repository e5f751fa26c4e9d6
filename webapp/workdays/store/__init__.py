"""Reading workdays: the days themselves, what a day holds, what the phone is offered."""

from webapp.workdays.store.days import (
    ChangeFacts,
    DayFacts,
    DayLine,
    EntryFacts,
    day_photo_ids,
    get_day,
    list_changes,
    list_days,
    list_entries,
    list_hours,
    noted_minutes,
    own_entry_id,
    sent_answer,
    shot_ids,
    spend_ids,
)
from webapp.workdays.store.offer import Asked, Offer, ask, read_offer

__all__ = [
    "Asked",
    "ChangeFacts",
    "DayFacts",
    "DayLine",
    "EntryFacts",
    "Offer",
    "ask",
    "day_photo_ids",
    "get_day",
    "list_changes",
    "list_days",
    "list_entries",
    "list_hours",
    "noted_minutes",
    "own_entry_id",
    "read_offer",
    "sent_answer",
    "shot_ids",
    "spend_ids",
]
