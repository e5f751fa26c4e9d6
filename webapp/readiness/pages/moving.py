"""A visit to another day, or called off: with everything that hangs on it in one form."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.inspections import store
from webapp.inspections.pages.asking import call_off_words
from webapp.inspections.rules.facts import InspectionFacts
from webapp.plan.guard import Here
from webapp.plan.rules.calling_off import cancel_words
from webapp.plan.store.booked import BookedFacts
from webapp.readiness.actions.moving import Fate
from webapp.readiness.store import Site, site
from webapp.readiness.store.hanging import hangs_on
from webapp.values.dates import show_day, show_long_day
from webapp.values.own_words import own

MOVE_CHOICES = (
    (Fate.MOVE.value, "Move it too", "Empty day: as many days later as the visit."),
    (Fate.FLAG.value, "Has to be moved", "Stays flagged until you have rung."),
    (Fate.STAY.value, "It can stay", ""),
)
CANCEL_CHOICES = (
    (Fate.FLAG.value, "Has to be moved", "Stays flagged until you have rung."),
    (Fate.OFF.value, "Called off too", ""),
    (Fate.STAY.value, "It can stay", ""),
)


@dataclass(frozen=True, slots=True)
class HangingLine:
    """One thing booked for a task that waits for this visit. `field` names its choice, `day` the field of its day."""

    what: str
    detail: str
    cancel: str
    field: str
    day: str


@dataclass(frozen=True, slots=True)
class MovingPage:
    sheet: Sheet
    calling_off: bool
    name: str
    when: str
    cancel: str
    lines: tuple[HangingLine, ...]
    visits: tuple[tuple[str, str, str], ...]
    choices: tuple[tuple[str, str, str], ...]
    action: str
    back: str
    form: FormState


def _line(found: Site, one: BookedFacts) -> HangingLine:
    task = found.record.task.get(one.task_id or 0)
    day = show_day(one.day, found.today) if one.day else "day not set"
    return HangingLine(
        what=f"{one.what}, {day}{', ' + one.window if one.window else ''}",
        detail=f"For “{task.title}”, which waits for this visit." if task else "",
        cancel=cancel_words(one.day, one.cancel_by, one.cancel_days, found.today),
        field=f"with_{one.id}",
        day=f"day_{one.id}",
    )


def _asked_at(inspection: InspectionFacts) -> tuple[int | None, int | None, str]:
    """Its office, and the notice and hour of its own."""
    return inspection.office_id, inspection.notice_days, inspection.ask_by


def moving_page(
    session: Session, here: Here, visit_id: int, *, calling_off: bool, form: FormState | None = None
) -> MovingPage:
    """Raises NotFound for a visit of another build."""
    visit = store.get_visit(session, here.build.id, visit_id)
    inspection = store.get_inspection_by_id(session, here.build.id, visit.inspection_id)
    found = site(session, here.build, here.today)
    hanging = hangs_on(session, found, inspection.id)
    names = {one.id: one.name for one in found.record.inspections}
    first = Fate.FLAG if calling_off else Fate.MOVE
    typed = {
        "day": "",
        "window": visit.window,
        "asked_on": "",
        "who_there": visit.who_there or inspection.who_there,
        "asked_how": visit.asked_how,
        "remote": "yes" if visit.remote else "",
        **{f"with_{one.id}": first.value for one in hanging.booked},
    }
    path = f"{here.base}/visits/{visit_id}"
    title = f"{'Call off' if calling_off else 'Move'}: {inspection.name}"
    return MovingPage(
        sheet=here.sheet(f"V2-{inspection.position}", own("Inspections"), title),
        calling_off=calling_off,
        name=inspection.name,
        when=f"{show_long_day(visit.day)}{', ' + visit.window if visit.window else ''}" if visit.day else "Day not set",
        cancel=call_off_words(found.record.offices.terms(*_asked_at(inspection)), visit.day, here.today),
        lines=tuple(_line(found, one) for one in hanging.booked),
        visits=tuple(
            (
                names[one.inspection_id],
                show_day(one.day, here.today) if one.day else "day not set",
                f"{here.base}/visits/{one.id}/move",
            )
            for one in hanging.visits
        ),
        choices=CANCEL_CHOICES if calling_off else MOVE_CHOICES,
        action=f"{path}/cancel" if calling_off else f"{path}/move",
        back=path,
        form=form or FormState.of(**typed),
    )
