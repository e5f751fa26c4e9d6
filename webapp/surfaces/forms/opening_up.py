"""What is typed about a closed surface that is opened up again, and the work of closing it again."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date
from functools import partial

from webapp.core.forms import Reader, Submitted
from webapp.plan.guard import Here
from webapp.surfaces.forms.places import past_day
from webapp.surfaces.store import SurfaceFacts
from webapp.values.dates import show_date
from webapp.values.duration import parse_hours

MOST_MINUTES = 400 * 60


@dataclass(frozen=True, slots=True)
class OpenForm:
    """`minutes` of the work of closing it again, None where no such task is wanted; `phase_id` None: a new phase."""

    why: str
    on: date
    minutes: int | None
    phase_id: int | None


def read_open(sent: Submitted, here: Here, surface: SurfaceFacts, phase_ids: Collection[int]) -> OpenForm:
    """Raises BadForm."""
    reader = Reader(sent)
    why = reader.text("why", "Write why it is opened up.")
    on = reader.parsed("on", partial(past_day, today=here.today)) or here.today
    if surface.covered_on is not None and on < surface.covered_on:
        reader.wrong("on", f"It was closed on {show_date(surface.covered_on)}; it cannot have been opened before.")
    minutes = None
    phase = reader.one_of("phase", [str(one) for one in phase_ids])
    if reader.flag("work"):
        hours = partial(parse_hours, most_minutes=MOST_MINUTES)
        minutes = reader.parsed("hours", hours, "Guess the hours of closing it again.")
    reader.done()
    return OpenForm(why, on, minutes, int(phase) if phase else None)
