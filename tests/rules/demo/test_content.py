"""The scenario as it is read: types, days, exact lengths, and ids that lead somewhere."""

import csv
import io
from datetime import date, timedelta

import pytest

from webapp.demo.files.packaged import read_packaged
from webapp.demo.rules.cells import Reading, UnreadableCellError, nanometres, read_rows
from webapp.demo.rules.content import Content, read_content
from webapp.demo.rules.days import demo_today, spell_days
from webapp.demo.rules.place_rows import Item

MONDAY = date(2031, 3, 10)
SATURDAY = date(2031, 3, 8)
WEEKDAYS = {"Mon": 0, "Tue": 1, "Wed": 2, "Thu": 3, "Fri": 4, "Sat": 5, "Sun": 6}
NO_ROW = {"", "whole", "all"}
WITHOUT_ID = {"saturday", "build", "calendar", "sketches"}


def say_day(day: date) -> str:
    return f"{day.day} {day:%B}"


@pytest.fixture(scope="module")
def texts() -> dict[str, str]:
    return read_packaged()


@pytest.fixture(scope="module")
def content(texts) -> Content:
    return read_content(texts, today=MONDAY, say_day=say_day)


def raw(texts, name) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(texts[name])))


@pytest.mark.parametrize("days_later", range(14))
def test_day_zero_is_a_saturday_at_most_six_days_back(days_later):
    today = SATURDAY + timedelta(days=days_later)
    assert demo_today(today).weekday() == 5
    assert 0 <= (today - demo_today(today)).days <= 6


def test_every_weekday_written_in_the_files_is_the_weekday_of_its_date(texts):
    checked = 0
    for name in texts:
        for row in raw(texts, name):
            own_day = next((column for column in row if column == "day" or column.endswith("_day")), "")
            if name in ("orders", "episodes", "permits"):
                own_day = {"orders": "ordered_day", "episodes": "published_day", "permits": "lapse_day"}[name]
            weekday = row.get("weekday") or row.get("weekday_lapse") or ""
            if weekday and row[own_day]:
                assert (SATURDAY + timedelta(days=int(row[own_day]))).weekday() == WEEKDAYS[weekday], row
                checked += 1
    assert checked > 300


def test_a_day_inside_a_sentence_is_said_in_words(content):
    assert spell_days("failed on {d:-46}, done {d:0}", SATURDAY, say_day) == "failed on 21 January, done 8 March"
    spoken = [text for rows in vars(content).values() if isinstance(rows, tuple) for text in map(repr, rows)]
    assert not [text for text in spoken if "{d:" in text]
    assert "21 January" in next(correction.words for correction in content.episode_corrections)


def test_a_sixteenth_of_an_inch_is_kept_to_the_nanometre():
    # The international inch is 25.4 mm exactly (international yard and pound agreement, 1959), from memory.
    assert nanometres("0.0625") == 1_587_500
    assert nanometres("14.375") == 365_125_000
    with pytest.raises(ValueError, match="not a whole number"):
        nanometres("0.00000001")


def test_a_bad_cell_is_named_with_its_row_column_and_text(texts):
    reading = Reading(saturday=SATURDAY, say_day=say_day)
    broken = (
        texts["items"].replace("W02,W,C08,receptacle", "W02,W,C08,receptacle", 1).replace(",150.125,44,", ",far,44,")
    )
    with pytest.raises(UnreadableCellError, match=r"Item, row \d+, column x_in: 'far'"):
        read_rows(Item, broken, reading)


def test_unknown_days_stay_unknown_and_lists_are_split(content):
    unknown = {picture.id for picture in content.pictures if picture.taken_day is None}
    assert unknown == {"P005", "P061", "P123"}
    by_id = {task.id: task for task in content.tasks}
    assert by_id["PL01"].surfaces == ("N", "E", "S", "W")
    assert by_id["BO02"].once_only_shots == ("F16", "F17", "F18")
    assert next(item for item in content.items if item.id == "E04").cables == ("14-2*6", "14-3*1")


def known_ids(content, texts) -> dict[str, set[str]]:
    ids = {name: {row.id for row in getattr(content, name)} for name in vars(content) if name not in WITHOUT_ID}
    return ids | {name: {row["id"] for row in raw(texts, name)} for name in ("goods", "orders", "members", "budget")}


REFERENCES = """
phases: tasks.phase spend.phase
surfaces: tasks.surfaces tasks.closes openings.surface items.surface runs.surface
  inspections.surfaces results.surface corrections.surface questions.surface footage.surface
  picture_slots.surface pictures.surface remarks.surface papers.surfaces verbal_advice.surface
  tests.surface
footage: tasks.once_only_shots
tasks: surfaces.closed_by_task corrections.task questions.holds footage.task work_entries.task
  spend.task episodes.task
services: items.service runs.service tests.service
items: runs.from_item runs.to_item corrections.item questions.item pictures.item remarks.item
permits: inspections.permit
inspections: visits.inspection results.inspection
visits: results.visit
papers: results.paper spend.paper
results: corrections.result
pictures: sketches.picture picture_slots.filled_by pictures.same_as pictures.replaced_by
picture_slots: pictures.slot
workdays: work_entries.workday
suppliers: receipts.supplier spend.supplier
receipts: spend.receipt
goods: spend.goods
episodes: claims.episode episode_corrections.episode remarks.episode
remarks: remarks.duplicate_of
questions: remarks.question
"""


def references() -> list[tuple[str, str, str]]:
    """(file, field, file the field's ids are in), from the table above."""
    found, target = [], ""
    for word in REFERENCES.split():
        if word.endswith(":"):
            target = word.removesuffix(":")
        else:
            file, field = word.split(".")
            found.append((file, field, target))
    return found


@pytest.mark.parametrize(("file", "field", "target"), references())
def test_every_id_leads_to_a_row(content, texts, file, field, target):
    ids = known_ids(content, texts)[target]
    for row in getattr(content, file):
        value = getattr(row, field)
        for one in value if isinstance(value, tuple) else (value,):
            assert one in ids | NO_ROW, (row, field, one)


def test_every_claim_rests_on_a_record_of_the_kind_it_names(content, texts):
    ids = known_ids(content, texts)
    for claim in content.claims:
        name = "spend" if claim.rests_on == "spend" else f"{claim.rests_on}s"
        assert claim.rests_on_id in ids[name], claim.id
