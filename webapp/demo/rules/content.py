"""The whole scenario as typed rows, read from the text of its files."""

from collections.abc import Mapping
from dataclasses import dataclass, fields
from datetime import date
from typing import get_args, get_type_hints

from webapp.demo.rules import place_rows, plan_rows, record_rows, told_rows
from webapp.demo.rules.cells import Reading, read_rows
from webapp.demo.rules.days import SayDay, demo_today


@dataclass(frozen=True)
class Content:
    """Every file of the scenario that the demo build needs, in the order of its lines."""

    saturday: date
    build: tuple[plan_rows.BuildFact, ...]
    phases: tuple[plan_rows.Phase, ...]
    tasks: tuple[plan_rows.Task, ...]
    needs: tuple[plan_rows.Need, ...]
    permits: tuple[plan_rows.Permit, ...]
    inspections: tuple[plan_rows.Inspection, ...]
    visits: tuple[plan_rows.Visit, ...]
    results: tuple[plan_rows.Result, ...]
    corrections: tuple[plan_rows.Correction, ...]
    questions: tuple[plan_rows.Question, ...]
    booked: tuple[plan_rows.Coming, ...]
    calendar: tuple[plan_rows.CalendarLine, ...]
    reordered: tuple[plan_rows.Reordered, ...]
    surfaces: tuple[place_rows.Surface, ...]
    openings: tuple[place_rows.Opening, ...]
    ties: tuple[place_rows.Tie, ...]
    services: tuple[place_rows.Service, ...]
    items: tuple[place_rows.Item, ...]
    runs: tuple[place_rows.Run, ...]
    footage: tuple[record_rows.Shot, ...]
    picture_slots: tuple[record_rows.PictureSlot, ...]
    pictures: tuple[record_rows.Picture, ...]
    sketches: tuple[record_rows.Sketch, ...]
    workdays: tuple[record_rows.Workday, ...]
    work_entries: tuple[record_rows.WorkEntry, ...]
    suppliers: tuple[record_rows.Supplier, ...]
    receipts: tuple[record_rows.Receipt, ...]
    spend: tuple[record_rows.Spend, ...]
    episodes: tuple[told_rows.Episode, ...]
    claims: tuple[told_rows.Claim, ...]
    episode_corrections: tuple[told_rows.EpisodeCorrection, ...]
    remarks: tuple[told_rows.Remark, ...]
    papers: tuple[told_rows.Paper, ...]
    verbal_advice: tuple[told_rows.Advice, ...]
    tests: tuple[told_rows.Test, ...]


def read_content(texts: Mapping[str, str], today: date, say_day: SayDay) -> Content:
    """Read `texts` (name of the file without ending -> its CSV text) with day 0 at `demo_today(today)`.

    Raises `UnreadableCellError` for a bad cell and KeyError for a missing file.
    """
    saturday = demo_today(today)
    reading = Reading(saturday=saturday, say_day=say_day)
    hints = get_type_hints(Content)
    names = [field.name for field in fields(Content) if field.name != "saturday"]
    rows = {name: read_rows(get_args(hints[name])[0], texts[name], reading) for name in names}
    return Content(saturday=saturday, **rows)
