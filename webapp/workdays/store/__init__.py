"""Reading workdays: the days themselves, what a day holds, what the phone is offered."""

from webapp.workdays.store.days import (
    ChangeFacts,
    DayFacts,
    DayLine,
    EntryFacts,
    TookFacts,
    day_photo_ids,
    get_day,
    list_changes,
    list_days,
    list_entries,
    list_hours,
    list_took,
    noted_minutes,
    own_entry_id,
    sent_answer,
    shot_ids,
    spend_ids,
)
from webapp.workdays.store.offer import Asked, Offer, ask, read_offer
from webapp.workdays.store.usual import lost_days

__all__ = [
    "Asked",
    "ChangeFacts",
    "DayFacts",
    "DayLine",
    "EntryFacts",
    "Offer",
    "TookFacts",
    "ask",
    "day_photo_ids",
    "get_day",
    "list_changes",
    "list_days",
    "list_entries",
    "list_hours",
    "list_took",
    "lost_days",
    "noted_minutes",
    "own_entry_id",
    "read_offer",
    "sent_answer",
    "shot_ids",
    "spend_ids",
]
