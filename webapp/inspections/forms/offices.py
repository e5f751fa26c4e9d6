"""The forms of an office and of its closed days."""

from collections.abc import Collection, Mapping
from datetime import date

from webapp.core.forms import FormState, Reader, Submitted
from webapp.inspections.forms.parts import HALF_A_YEAR, RIGHT, hour
from webapp.inspections.rules.booking import HOUR, NOTICE, OfficeFacts
from webapp.inspections.rules.record import ClosedForm, OfficeForm
from webapp.values.dates import MONDAY_TO_FRIDAY, days_between, parse_day, same_day_in, show_date

LONGEST = 366
"""days that one closing can last: an office that is shut for longer is not asked at all"""


def read_office(sent: Submitted, calendars: Mapping[str, Collection[str]]) -> OfficeForm:
    """`calendars`: country -> its parts that have holidays of their own (`store.holidays.supported`)."""
    read = Reader(sent)
    name = read.text("name", "What is the office called?", most=80)
    weekdays = frozenset(int(day) for day in read.many_of("weekdays", [str(day) for day in range(7)]))
    if not weekdays and "weekdays" not in read.errors:
        read.wrong("weekdays", "On which weekdays does it come? Tick at least one.")
    from_time, until_time = hour(read, "from_time"), hour(read, "until_time")
    if from_time and until_time and until_time <= from_time:
        read.wrong("until_time", f"It cannot leave before it comes at {from_time}. Look at both hours.")
    notice = read.whole("notice_days", least=0, most=60)
    ask_by, cancel_by = hour(read, "ask_by") or HOUR, hour(read, "cancel_by")
    cancel_days = read.whole("cancel_days", least=0, most=60) or 0
    if cancel_days and not cancel_by and "cancel_by" not in read.errors:
        read.wrong("cancel_by", "By which hour of that day? Such as 16:00.")
    made = OfficeForm(
        name=name,
        weekdays=weekdays,
        from_time=from_time,
        until_time=until_time,
        notice_days=NOTICE if notice is None else notice,
        ask_by=ask_by,
        cancel_by=cancel_by,
        cancel_days=cancel_days,
        calendar=_calendar(read, calendars),
        reach=read.text("reach", most=160),
        source=read.text("source", most=120) or "my guess",
    )
    read.done()
    return made


def _calendar(read: Reader, calendars: Mapping[str, Collection[str]]) -> str:
    """ "US-OR"; a country or part without a calendar is told beside the field."""
    typed = read.text("calendar").upper().replace("_", "-").replace(" ", "-")
    if not typed:
        return ""
    country, _, part = typed.partition("-")
    if country not in calendars:
        read.wrong(
            "calendar", f"No calendar is known for “{typed}”. Write the country’s two letters, such as US or US-OR."
        )
    elif part and part not in calendars[country]:
        sentence = (
            f"{country} has no part “{part}” with holidays of its own. {country} alone takes the whole country’s."
        )
        read.wrong("calendar", sentence, (country,))
    return typed


def office_state(office: OfficeFacts | None) -> FormState:
    """A new one works Monday to Friday with a day's notice until the builder says otherwise."""
    if office is None:
        made = FormState.of(notice_days=str(NOTICE), ask_by=HOUR, source="my guess")
        return FormState(dict(made.typed) | {"weekdays": tuple(str(day) for day in sorted(MONDAY_TO_FRIDAY))})
    names = ("name", "from_time", "until_time", "ask_by", "cancel_by", "calendar", "reach", "source")
    made = FormState.of(
        notice_days=str(office.notice_days),
        cancel_days=str(office.cancel_days or ""),
        **{name: getattr(office, name) for name in names},
    )
    return FormState(dict(made.typed) | {"weekdays": tuple(str(day) for day in sorted(office.weekdays))})


def read_closed_day(sent: Submitted, today: date) -> ClosedForm:
    """A day, or a row of days. One far from today is asked about, since a year is easily mistyped."""
    read = Reader(sent)
    day = read.parsed("day", lambda text: parse_day(text, today), "On which day?")
    until = read.parsed("until_day", lambda text: parse_day(text, today))
    if day and until and until < day:
        later = same_day_in(until, until.year + 1)
        likely = (later.isoformat(),) if later and 0 <= days_between(day, later) <= LONGEST else ()
        read.wrong("until_day", f"{show_date(until)} is before {show_date(day)}. Look at both days.", likely)
    elif day and until and days_between(day, until) > LONGEST:
        read.wrong("until_day", "That is more than a year. Look at the year.")
    if day and abs(days_between(today, day)) > 2 * HALF_A_YEAR and not read.flag("days_right"):
        read.wrong("day", f"{show_date(day)} is more than a year from today. If it is right, tick “{RIGHT}”.")
    form = ClosedForm(
        day=day or today,
        until_day=until if until and until != day else None,
        open=read.flag("open"),
        why=read.text("why", most=120),
        everywhere=read.flag("everywhere"),
    )
    read.done()
    return form
