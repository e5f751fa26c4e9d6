"""How figures are written in templates."""

from collections.abc import Callable, Mapping
from typing import Any

from webapp.values.dates import show_date, show_day, show_long_day, show_moment
from webapp.values.duration import show_minutes
from webapp.values.length import show_length
from webapp.values.money import show_amount, show_money
from webapp.values.words import join_words, plural

FILTERS: Mapping[str, Callable[..., Any]] = {
    "amount": show_amount,
    "date": show_date,
    "day": show_day,
    "join_words": join_words,
    "measured": show_length,
    "long_day": show_long_day,
    "minutes": show_minutes,
    "moment": show_moment,
    "money": show_money,
    "plural": plural,
}
