"""Fields that several forms of permits, offices and inspections share."""

import re
from datetime import date

from webapp.core.forms import Reader
from webapp.values.dates import days_between, parse_day, same_day_in, show_date
from webapp.values.words import plain_slug

_CODE = re.compile(r"[A-Z0-9]{1,12}")
_HOUR = re.compile(r"([01]?\d|2[0-3]):[0-5]\d")
HALF_A_YEAR = 183
RIGHT = "The days are right"


def code_of(read: Reader, name: str) -> str:
    """The short name in addresses; made from the name where none is typed."""
    typed = read.text("code").upper() or plain_slug(name).replace("-", "").upper()[:12]
    if typed and not _CODE.fullmatch(typed):
        read.wrong("code", "Up to twelve letters and digits without spaces, such as ELE.")
    return typed


def hour(read: Reader, name: str) -> str:
    """An hour as "07:00"; empty when none was typed."""
    typed = read.text(name)
    if typed and not _HOUR.fullmatch(typed):
        read.wrong(name, "Write an hour such as 15:30.", ("15:30",))
        return ""
    return typed.zfill(5) if typed else ""


def past_day(read: Reader, name: str, today: date) -> date | None:
    found = read.parsed(name, lambda text: parse_day(text, today))
    if found is not None and found > today:
        read.wrong(name, "This day has not come yet. Leave it empty until it has.", _year_before(found, today))
    return found


def _year_before(day: date, today: date) -> tuple[str, ...]:
    earlier = same_day_in(day, day.year - 1)
    return (earlier.isoformat(),) if earlier and earlier <= today else ()


def ask_year(read: Reader, name: str, day: date | None, beside: date | None, beside_words: str) -> None:
    """Ask about a day that is more than half a year from the one it should be near, until `days_right` is ticked."""
    if day is None or beside is None or abs(days_between(day, beside)) <= HALF_A_YEAR or read.flag("days_right"):
        return
    near = [same_day_in(day, year) for year in (beside.year, beside.year + 1, beside.year - 1)]
    likely = tuple(each.isoformat() for each in near if each and abs(days_between(each, beside)) <= HALF_A_YEAR)[:1]
    meant = f" Did you mean {show_date(date.fromisoformat(likely[0]))}?" if likely else ""
    sentence = f"{show_date(day)} is far from {beside_words} ({show_date(beside)}).{meant}"
    read.wrong(name, f"{sentence} If it is right, tick “{RIGHT}”.", likely)
