"""The only place that asks what time it is, so that tests can hold it still."""

from datetime import UTC, date, datetime


def now() -> datetime:
    """The moment, aware, in UTC: for what arrives and is written."""
    return datetime.now(UTC)  # noqa: TID251 (the one place)


def local_now() -> datetime:
    """The moment on the clock of the machine's own zone, aware: for what a person reads."""
    return datetime.now(UTC).astimezone()  # noqa: TID251 (the one place)


def today() -> date:
    """The day it is where the server stands: builds are logged by local days."""
    return local_now().date()


def in_utc(moment: datetime) -> datetime:
    """A moment read from the record: SQLite gives it back without its zone, and all are written in UTC."""
    return moment.replace(tzinfo=UTC) if moment.tzinfo is None else moment
