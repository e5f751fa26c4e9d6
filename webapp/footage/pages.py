"""Sheet F1: what is to be filmed before it is gone, and where what was filmed lies."""

from collections import Counter
from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.footage import store
from webapp.footage.rules.order import owed_by_step
from webapp.footage.store import ShotFacts
from webapp.plan.guard import Here
from webapp.values.dates import show_day, show_moment
from webapp.values.words import plural

LAST = 30
"""filmed shots on the first sheet; all with `?all=1`"""
STRENGTHS = (("must", "Must", "its surface stays open until it is filmed"), ("wish", "Wish", "nice to have"))


@dataclass(frozen=True, slots=True)
class ShotRow:
    """A shot still to film. `when`: once only, or any time."""

    what: str
    detail: str
    href: str
    must: bool
    when: str


@dataclass(frozen=True, slots=True)
class StepRow:
    title: str
    note: str
    href: str
    shots: tuple[ShotRow, ...]


@dataclass(frozen=True, slots=True)
class FilmedRow:
    what: str
    href: str
    on: str
    files: str
    where: str
    note: str


@dataclass(frozen=True, slots=True)
class FootagePage:
    sheet: Sheet
    summary: str
    steps: tuple[StepRow, ...]
    filmed: tuple[FilmedRow, ...]
    filmed_words: str
    all_filmed: str
    skipped: tuple[tuple[str, str], ...]
    places: tuple[tuple[str, str], ...]
    base: str


def footage_page(session: Session, here: Here, everything: bool = False) -> FootagePage:
    shots = store.list_shots(session, here.build.id)
    owed = [shot for shot in shots if shot.state == "owed"]
    filmed = sorted(
        (s for s in shots if s.state == "filmed"), key=lambda s: (s.filmed_on is not None, s.filmed_on, s.id)
    )
    shown = filmed[::-1] if everything else filmed[::-1][:LAST]
    places = Counter(shot.where_it_lies or "not noted" for shot in filmed)
    return FootagePage(
        sheet=here.sheet("F1", "Footage"),
        summary=f"{plural(len(owed), 'shot')} owed, {sum(shot.strength == 'must' for shot in owed)} of them must",
        steps=_steps(owed, here),
        filmed=tuple(_filmed(shot, here) for shot in shown),
        filmed_words=f"last {len(shown)} of {len(filmed)}" if len(shown) < len(filmed) else str(len(filmed)),
        all_filmed=f"{here.base}/footage?all=1" if len(shown) < len(filmed) else "",
        skipped=tuple(_skipped(shot, here) for shot in shots if shot.state == "skipped"),
        places=tuple((where, plural(count, "shot")) for where, count in places.most_common(8)),
        base=here.base,
    )


def _steps(owed: list[ShotFacts], here: Here) -> tuple[StepRow, ...]:
    rows = []
    for step in owed_by_step(owed):
        title = f"Before: {step.title}" if step.task_id and not step.missed else step.title or "At any time"
        note = "done; what could be filmed once only may be gone" if step.missed else ""
        href = f"{here.base}/tasks/{step.task_id}" if step.task_id else ""
        rows.append(StepRow(title, note, href, tuple(_row(shot, here) for shot in step.shots)))
    return tuple(rows)


def _row(shot: ShotFacts, here: Here) -> ShotRow:
    return ShotRow(
        what=shot.what,
        detail=shot.note,
        href=f"{here.base}/footage/{shot.id}",
        must=shot.strength == "must",
        when="once only" if shot.once else "any time",
    )


def _filmed(shot: ShotFacts, here: Here) -> FilmedRow:
    return FilmedRow(
        what=shot.what,
        href=f"{here.base}/footage/{shot.id}",
        on=show_day(shot.filmed_on, here.today) if shot.filmed_on else "day not noted",
        files=shot.files or "not noted",
        where=shot.where_it_lies or "not noted",
        note=shot.note,
    )


def _skipped(shot: ShotFacts, here: Here) -> tuple[str, str]:
    when = show_day(shot.skipped_on, here.today) if shot.skipped_on else "day not noted"
    return shot.what, f"{when}: {shot.skipped_why}"


@dataclass(frozen=True, slots=True)
class ShotPage:
    """One shot: what is owed or where it lies, with the forms that go on from there."""

    sheet: Sheet
    what: str
    standing: str
    must: bool
    state: str
    detail: str
    step: str
    step_href: str
    filmed: FormState
    why: FormState
    errors: FormState
    facts: tuple[tuple[str, str], ...]
    changes: tuple[tuple[str, str], ...]
    href: str
    back: str


def shot_page(session: Session, here: Here, shot_id: int, which: str = "", form: FormState | None = None) -> ShotPage:
    """`which` form (filmed, why) is drawn again as `form`."""
    shot = store.get_shot(session, here.build.id, shot_id)
    on = (shot.filmed_on or here.today).isoformat()
    forms = {
        "filmed": FormState.of(on=on, where=shot.where_it_lies, files=shot.files),
        "why": FormState.of(on=here.today.isoformat()),
    }
    if form is not None:
        forms[which] = form
    return ShotPage(
        sheet=here.sheet("F1", "Footage", shot.what),
        what=shot.what,
        standing=_standing(shot, here),
        must=shot.strength == "must",
        state=shot.state,
        detail=shot.note,
        step=shot.task or "",
        step_href=f"{here.base}/tasks/{shot.task_id}" if shot.task_id else "",
        filmed=forms["filmed"],
        why=forms["why"],
        errors=form or FormState(),
        facts=_facts(shot, here),
        changes=_changes(session, shot_id),
        href=f"{here.base}/footage/{shot_id}",
        back=f"{here.base}/footage",
    )


def _standing(shot: ShotFacts, here: Here) -> str:
    if shot.state == "filmed":
        return f"Filmed {show_day(shot.filmed_on, here.today)}." if shot.filmed_on else "Filmed."
    if shot.state == "skipped":
        return f"Skipped: {shot.skipped_why}"
    once = "It can be filmed only once." if shot.once else "It can be filmed at any time."
    must = "It must be filmed before its surface is closed." if shot.strength == "must" else "It is a wish."
    return f"{must} {once}"


def _facts(shot: ShotFacts, here: Here) -> tuple[tuple[str, str], ...]:
    listed = (
        ("Filmed", show_day(shot.filmed_on, here.today) if shot.filmed_on else ""),
        ("Where it lies", shot.where_it_lies),
        ("Files", shot.files),
        ("Seconds", str(shot.seconds) if shot.seconds is not None else ""),
        ("Skipped", show_day(shot.skipped_on, here.today) if shot.skipped_on else ""),
    )
    return tuple((label, value) for label, value in listed if value)


def _changes(session: Session, shot_id: int) -> tuple[tuple[str, str], ...]:
    return tuple(
        (f"{field.replace('_', ' ').capitalize()}: {was}, now {became or 'nothing'}", show_moment(at.astimezone()))
        for field, was, became, at in store.list_changes(session, shot_id)
    )


@dataclass(frozen=True, slots=True)
class EditPage:
    sheet: Sheet
    form: FormState
    new: bool
    steps: tuple[tuple[str, str], ...]
    strengths: tuple[tuple[str, str, str], ...]
    action: str
    back: str


def edit_page(
    session: Session, here: Here, shot_id: int = 0, task_id: int = 0, form: FormState | None = None
) -> EditPage:
    """`shot_id` 0: a new shot, for the task `task_id` if there is one."""
    steps = store.list_steps(session, here.build.id)
    state = FormState.of(task=str(task_id or ""), strength="must", once="1")
    back = f"{here.base}/footage"
    if shot_id:
        shot = store.get_shot(session, here.build.id, shot_id)
        state = FormState.of(
            what=shot.what,
            task=str(shot.task_id or ""),
            strength=shot.strength,
            once="1" if shot.once else "",
            note=shot.note,
        )
        back = f"{here.base}/footage/{shot_id}"
    return EditPage(
        sheet=here.sheet("F1", "Footage", "Change the shot" if shot_id else "Add a shot"),
        form=form or state,
        new=not shot_id,
        steps=(("", "no task"), *((str(step.id), f"{step.phase}: {step.title}") for step in steps)),
        strengths=STRENGTHS,
        action=f"{here.base}/footage/{shot_id}/edit" if shot_id else f"{here.base}/footage",
        back=back,
    )
