"""The inspectors of the scenario as offices: their weekdays and hours, their notice, the hour to call off by."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import time

from webapp.demo.rules.plan_rows import CalendarLine, Inspection

_DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_NUMBERS = {"one": 1, "two": 2, "three": 3}


@dataclass(frozen=True)
class DemoOffice:
    """`weekdays` by their ISO numbers."""

    trade: str
    name: str
    weekdays: tuple[int, ...]
    from_time: str
    until_time: str
    notice_days: int
    ask_by: str
    cancel_by: str


def _hour(at: time | None) -> str:
    return f"{at:%H:%M}" if at else ""


def offices(calendar: Iterable[CalendarLine]) -> tuple[DemoOffice, ...]:
    """One for each trade, from lines like "building; notice two working days; asked by 15:30"."""
    lines = list(calendar)
    cancel = next((_hour(line.to_time) for line in lines if line.kind == "cancel by"), "")
    of_trade: dict[str, list[CalendarLine]] = {}
    for line in lines:
        if line.kind == "inspector":
            of_trade.setdefault(line.note.partition(";")[0], []).append(line)
    return tuple(_office(trade, found, cancel) for trade, found in of_trade.items())


def _office(trade: str, lines: list[CalendarLine], cancel: str) -> DemoOffice:
    _, notice, asked = lines[0].note.split("; ")
    return DemoOffice(
        trade=trade,
        name=f"{trade.capitalize()} inspections",
        weekdays=tuple(_DAYS.index(line.weekday) + 1 for line in lines),
        from_time=_hour(lines[0].from_time),
        until_time=_hour(lines[0].to_time),
        notice_days=_NUMBERS[notice.split()[1]],
        ask_by=asked.rpartition(" ")[2],
        cancel_by=cancel,
    )


def closed_days(calendar: Iterable[CalendarLine]) -> Iterator[tuple[str, CalendarLine, str]]:
    """Trade (empty for every office), line and why, from notes like "electrical; the counter moves"."""
    lines = list(calendar)
    trades = {each.trade for each in offices(lines)}
    for line in lines:
        trade, _, why = line.note.partition("; ")
        if line.kind == "office closed":
            yield (trade, line, why) if trade in trades else ("", line, line.note)


def office_of(inspection: Inspection) -> str:
    """The trade of "inspector (building)"."""
    return inspection.who.partition("(")[2].rstrip(")")


def own_notice(inspection: Inspection, calendar: Iterable[CalendarLine]) -> int | None:
    """The notice of an inspection where it is not its office's."""
    usual = next((each.notice_days for each in offices(calendar) if each.trade == office_of(inspection)), None)
    return None if usual == inspection.notice_working_days else inspection.notice_working_days


def code_of(permit: str, facts: Mapping[str, str]) -> tuple[str, str]:
    """The family of the code that a permit goes by, and its edition; empty where the scenario says none."""
    if permit == "ELE":
        return "electrical code", facts["electrical_code_edition"]
    family, _, edition = (
        facts["building_code_family"].partition(", ") if permit == "BLD" else (facts["plumbing_family"], "", "")
    )
    return family, edition
