"""What is sent when somebody was told."""

from collections.abc import Collection

from webapp.core.forms import Reader, Submitted
from webapp.linetests.rules.hours import parse_hour
from webapp.workdays.rules.alone import Telling

WHOM = "Write whom you told. If it is nobody yet, tell somebody first."
BACK_BY = "Write the hour you said, such as 19:00."


def read_telling(sent: Submitted, task_ids: Collection[int], hour: str) -> Telling:
    """`hour`: what the site's clock shows now; an hour that is over would tell nobody when to call."""
    reader = Reader(sent)
    whom = reader.text("whom", WHOM, most=80)
    back_by = reader.parsed("back_by", parse_hour, BACK_BY)
    if back_by and back_by <= hour:
        reader.wrong("back_by", f"It is {hour} now. Write an hour of today that is still to come.")
    task = reader.one_of("task", frozenset(map(str, task_ids)))
    reader.done()
    return Telling(whom, back_by or "", int(task) if task else None)
