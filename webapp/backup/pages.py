"""What the page of copies receives."""

from dataclasses import dataclass
from datetime import datetime

from webapp.backup.rules.keeping import CopyFacts, show_age, show_size
from webapp.core.sheets import Sheet
from webapp.values.dates import show_moment
from webapp.values.words import plural

SHOWN = 12


@dataclass(frozen=True, slots=True)
class CopyLine:
    title: str
    detail: str
    size: str
    href: str


@dataclass(frozen=True, slots=True)
class CopiesPage:
    sheet: Sheet
    headline: str
    whole: tuple[CopyLine, ...]
    daily: tuple[CopyLine, ...]
    more: str
    take: str
    """path of the newest whole copy; empty while there is none"""
    keep: str
    folder: str


def copies_page(sheet: Sheet, copies: tuple[CopyFacts, ...], keep: int, folder: str, now: datetime) -> CopiesPage:
    """`copies` newest first, as `files.list_copies` gives them."""
    whole = [copy for copy in copies if not copy.daily]
    daily = [copy for copy in copies if copy.daily]
    left = max(0, len(whole) - SHOWN) + max(0, len(daily) - SHOWN)
    return CopiesPage(
        sheet=sheet,
        headline=(
            f"The newest whole copy was made {show_age(whole[0].made_at, now)}."
            if whole
            else "There is no whole copy yet. Make the first one now."
        ),
        whole=tuple(_line(copy, now) for copy in whole[:SHOWN]),
        daily=tuple(_line(copy, now) for copy in daily[:SHOWN]),
        more=f"{plural(left, 'older copy', 'older copies')} in the folder." if left else "",
        take=f"/copies/{whole[0].name}" if whole else "",
        keep=f"the newest {keep} and the first of each month",
        folder=folder,
    )


def _line(copy: CopyFacts, now: datetime) -> CopyLine:
    age = show_age(copy.made_at, now)
    return CopyLine(
        show_moment(copy.made_at.astimezone()), age[:1].upper() + age[1:], show_size(copy.size), f"/copies/{copy.name}"
    )
