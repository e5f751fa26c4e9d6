"""What was put right, in words: the name of a field, what it was and what it became."""

import json
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.values.dates import show_date, show_day
from webapp.values.length import show_length

FIELDS = {
    "line_id": "Circuit or line",
    "from_item_id": "From",
    "to_item_id": "To",
    "continues_id": "Goes on from",
    "breaker_a": "Breaker",
    "code": "Short name",
    "number": "Space",
    "room": "Serves",
    "ended_on": "Out of use since",
    "removed_on": "Gone since",
    "from_picture": "Offsets",
}
"""fields whose column is called otherwise than the builder calls them"""


@dataclass(frozen=True, slots=True)
class Change:
    """A line of a list: what was put right, and when."""

    title: str
    detail: str


def changes_of(session: Session, here: Here, own: Mapping[str, Collection[int]]) -> tuple[Change, ...]:
    """What was put right on these things, by kind and id, the latest first."""
    found, names = [], _names(session, here)
    for change in store.list_changes(session, here.build.id):
        if change.what_id in own.get(change.what_kind, ()):
            field = FIELDS.get(change.field) or change.field.removesuffix("_nm").replace("_", " ").capitalize()
            known = names.get(change.field, {})
            was, became = (_value(change.field, value, here.build.unit, known) for value in (change.was, change.became))
            why = f" {change.why}" if change.why else ""
            when = show_day(change.at.astimezone().date(), here.today)
            found.append(Change(f"{field}: {was}, now {became}", f"{when}.{why}"))
    return tuple(found)


def _names(session: Session, here: Here) -> Mapping[str, Mapping[str, str]]:
    """For each field that holds an id: what the ids mean."""
    lines = {str(line.id): line.code for line in store.list_lines(session, here.build.id)}
    items = {str(item.id): item.label for item in store.list_items(session, here.build.id)}
    runs = {str(run.id): run.label for run in store.list_runs(session, here.build.id)}
    return {"line_id": lines, "from_item_id": items, "to_item_id": items, "continues_id": runs}


def _value(field: str, value: str, unit: str, names: Mapping[str, str]) -> str:
    if not value:
        return "nothing"
    if field == "points":
        return ", ".join(f"{show_length(x, unit)} along {show_length(y, unit)} up" for x, y in json.loads(value))
    if field == "from_picture":
        return "from a picture" if value == "True" else "by the tape"
    if field.endswith("_on"):
        return show_date(date.fromisoformat(value))
    return show_length(int(value), unit) if field.endswith("_nm") else names.get(value, value)
