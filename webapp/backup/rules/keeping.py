"""Which copies are kept: all made by hand; of the daily ones the newest few and the first of every month."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

from webapp.values.dates import show_date

A_DAY = timedelta(days=1)
NAME = re.compile(r"studbay-(\d{8}T\d{6})Z-(whole|daily)\.zip", re.ASCII)


@dataclass(frozen=True, slots=True)
class CopyFacts:
    """One copy in the folder of copies; a daily one holds the record, a whole one the pictures too."""

    name: str
    made_at: datetime
    size: int
    """in bytes"""
    daily: bool


def copy_name(made_at: datetime, daily: bool) -> str:
    """`studbay-20260516T172000Z-whole.zip`; the moment in UTC, so that names sort by age."""
    return f"studbay-{made_at.astimezone(UTC):%Y%m%dT%H%M%S}Z-{'daily' if daily else 'whole'}.zip"


def read_copy_name(name: str, size: int = 0) -> CopyFacts | None:
    """The facts in a name that we gave; None for any other name."""
    found = NAME.fullmatch(name)
    if found is None:
        return None
    try:
        made_at = datetime.strptime(found[1], "%Y%m%dT%H%M%S").replace(tzinfo=UTC)
    except ValueError:
        return None
    return CopyFacts(name, made_at, size, found[2] == "daily")


def to_let_go(copies: Sequence[CopyFacts], keep: int) -> tuple[str, ...]:
    """Names of daily copies that may go, oldest first. `keep` 0 keeps the firsts of the months alone."""
    daily = sorted((copy for copy in copies if copy.daily), key=lambda copy: copy.made_at)
    firsts: dict[tuple[int, int], str] = {}
    for copy in daily:
        firsts.setdefault((copy.made_at.year, copy.made_at.month), copy.name)
    kept = {copy.name for copy in daily[max(0, len(daily) - keep) :]} | set(firsts.values())
    return tuple(copy.name for copy in daily if copy.name not in kept)


def is_due(newest: datetime | None, changed_at: datetime, now: datetime) -> bool:
    """Whether a daily copy is to be made: a day has passed and something was written since."""
    return newest is None or (changed_at > newest and now - newest >= A_DAY)


def show_size(size: int) -> str:
    """`840 kB`, `2.4 MB`, `13 MB`, `1.2 GB`: powers of ten, as disks are sold (IEC 80000-13)."""
    for unit, factor in (("GB", 10**9), ("MB", 10**6)):
        if size >= factor:
            tenths = size * 10 // factor
            return f"{tenths // 10}.{tenths % 10} {unit}" if tenths < 100 else f"{tenths // 10} {unit}"
    return f"{-(-size // 1000)} kB"


def show_age(made_at: datetime, now: datetime) -> str:
    """`a minute ago`, `3 hours ago`, `5 days ago`, or the day after that."""
    age = now - made_at
    minutes, hours, days = age // timedelta(minutes=1), age // timedelta(hours=1), age.days
    if minutes < 2:
        return "just now"
    if hours < 2:
        return f"{minutes} minutes ago"
    if days < 2:
        return f"{hours} hours ago"
    return f"{days} days ago" if days <= 30 else f"on {show_date(made_at.date())}"
