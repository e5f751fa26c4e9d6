"""Working alone: whom I told, when I said I am back. Studbay reminds only me; it calls nobody."""

from dataclasses import dataclass
from datetime import date, datetime


@dataclass(frozen=True, slots=True)
class Telling:
    """What I told somebody: `back_by` is an hour of the same day, `19:00`."""

    whom: str
    back_by: str
    task_id: int | None = None


@dataclass(frozen=True, slots=True)
class ToldFacts:
    """One telling as it stands; moments are UTC. `ended_how` is empty while it is open, else `back` or `told again`."""

    id: int
    day: date
    whom: str
    back_by: str
    task_id: int | None
    told_at: datetime
    ended_at: datetime | None
    ended_how: str

    def words(self) -> str:
        return f"Told {self.whom}, back by {self.back_by}"


def is_over(told: ToldFacts, today: date, hour: str) -> bool:
    """Whether the hour I said has come: by the site's own clock, `hour` as `18:40`."""
    return told.day < today or (told.day == today and told.back_by <= hour)
