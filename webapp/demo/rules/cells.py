"""Cells of a CSV file as typed values, and whole files as frozen dataclasses.

A row class says by its annotations how each cell is read. A field whose name ends `_nm` reads the column of
the same name ending `_in`, every other field the column of its own name. Other columns are left alone.
"""

import csv
import io
from collections.abc import Callable
from dataclasses import dataclass, fields
from datetime import date, time
from fractions import Fraction
from functools import partial
from typing import Annotated, Any, TypeVar, get_args, get_type_hints

from webapp.demo.rules.days import SayDay, day_at, spell_days

NM_PER_INCH = 25_400_000

Row = TypeVar("Row")


@dataclass(frozen=True)
class Reading:
    """What every cell is read against: day 0 of the scenario and the way a date is said in a sentence."""

    saturday: date
    say_day: SayDay


class UnreadableCellError(ValueError):
    """A cell that does not hold what its column promises; the message names row, column and text."""


Read = Callable[[str, Reading], object]


def nanometres(inches: str) -> int:
    """Decimal inches as integer nanometres, exactly; ValueError where a nanometre would be split."""
    exact = Fraction(inches) * NM_PER_INCH
    if exact.denominator != 1:
        raise ValueError(f"{inches} in is not a whole number of nanometres")
    return exact.numerator


def _words(text: str, reading: Reading) -> str:
    return spell_days(text, reading.saturday, reading.say_day)


def _whole(text: str, _: Reading) -> int:
    return int(text)


def _length(text: str, _: Reading) -> int:
    return nanometres(text)


def _exact(text: str, _: Reading) -> Fraction:
    return Fraction(text)


def _day(text: str, reading: Reading) -> date:
    return day_at(reading.saturday, int(text))


def _clock(text: str, _: Reading) -> time:
    return time.fromisoformat(text)


def _answer(text: str, _: Reading) -> bool:
    return {"yes": True, "no": False}[text]


def _split(separator: str, text: str, reading: Reading) -> tuple[str, ...]:
    return tuple(_words(part.strip(), reading) for part in text.split(separator) if part.strip())


def _points(text: str, _: Reading) -> tuple[tuple[int, int], ...]:
    pairs = (pair.split(",") for pair in text.split())
    return tuple((nanometres(x), nanometres(y)) for x, y in pairs)


def _maybe(read: Read, text: str, reading: Reading) -> object:
    return None if text in ("", "unknown") else read(text, reading)


Whole = Annotated[int, _whole]
MaybeWhole = Annotated[int | None, partial(_maybe, _whole)]
Length = Annotated[int, _length]
MaybeLength = Annotated[int | None, partial(_maybe, _length)]
MaybeExact = Annotated[Fraction | None, partial(_maybe, _exact)]
Day = Annotated[date, _day]
MaybeDay = Annotated[date | None, partial(_maybe, _day)]
MaybeClock = Annotated[time | None, partial(_maybe, _clock)]
Answer = Annotated[bool, _answer]
MaybeAnswer = Annotated[bool | None, partial(_maybe, _answer)]
Words = Annotated[str, _words]
Surfaces = Annotated[tuple[str, ...], partial(_split, ",")]
Several = Annotated[tuple[str, ...], partial(_split, ";")]
Points = Annotated[tuple[tuple[int, int], ...], _points]


def _columns(row_class: type[Any]) -> list[tuple[str, str, Read]]:
    hints = get_type_hints(row_class, include_extras=True)
    names = [field.name for field in fields(row_class)]
    columns = [name.removesuffix("_nm") + "_in" if name.endswith("_nm") else name for name in names]
    return [(name, column, get_args(hints[name])[1]) for name, column in zip(names, columns, strict=True)]


def read_rows(row_class: type[Row], text: str, reading: Reading) -> tuple[Row, ...]:
    """Read CSV `text` (header line first) as `row_class`; `UnreadableCellError` at the first bad cell."""
    columns = _columns(row_class)
    rows = []
    for line, cells in enumerate(csv.DictReader(io.StringIO(text, newline="")), start=1):
        values = {}
        for name, column, read in columns:
            try:
                values[name] = read(cells[column], reading)
            except (KeyError, ValueError) as reason:
                where = f"{row_class.__name__}, row {line}, column {column}"
                raise UnreadableCellError(f"{where}: {cells.get(column)!r} cannot be read ({reason})") from reason
        rows.append(row_class(**values))
    return tuple(rows)
