"""The day's form: for a new day, and for one that is put right."""

from collections.abc import Mapping
from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.photos.store import list_photos
from webapp.plan.guard import Here
from webapp.plan.rules.dangers import how_words
from webapp.values.dates import show_long_day
from webapp.values.duration import field_hours, show_minutes
from webapp.values.errors import RuleBroken
from webapp.workdays.actions import Received
from webapp.workdays.pages import choices
from webapp.workdays.pages.choices import Group, Option, TaskChoice
from webapp.workdays.rules.said import BLOCKS, SPEND_KINDS, stopped_parts
from webapp.workdays.store import Asked, DayFacts, EntryFacts, Offer

HELPERS = ("helper_unpaid", "helper_paid", "hired", "helper_pay", "people_sure", "people")
FOOTAGE = ("filmed", "files_lie", "shot")


@dataclass(frozen=True, slots=True)
class Start:
    """A form before anything of it is sent: where it goes, what it is headed with, what stands in it."""

    action: str
    heading: str
    button: str
    asked: Asked
    form: FormState
    back: str = ""


@dataclass(frozen=True, slots=True)
class Blank:
    """One block for a line of spend. `kept`: the receipt's picture is here already."""

    name: str
    legend: str
    open: bool
    kept: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class FormPage:
    sheet: Sheet
    start: Start
    form: FormState
    days: tuple[Option, ...]
    usual: tuple[Option, ...]
    """hours of days like this one: what is put into the field, and how it is said"""
    tasks: tuple[TaskChoice, ...]
    further_tasks: tuple[TaskChoice, ...]
    """those that come after the first few, folded away unless one is ticked"""
    more_tasks: tuple[Group, ...]
    unlisted: int
    """open tasks that the list has no room for"""
    weathers: tuple[Option, ...]
    stops: tuple[Option, ...]
    surfaces: tuple[Option, ...]
    items: tuple[Group, ...]
    slots: tuple[Group, ...]
    shots: tuple[tuple[str, str, str], ...]
    kinds: tuple[Option, ...]
    blanks: tuple[Blank, ...]
    kept: tuple[str, ...]
    """SHA-256 of the pictures that are here already"""
    kept_names: tuple[str, ...]
    not_taken: tuple[str, ...]
    told: str
    """whom I told and when I said I am back, while that is open"""
    alone: str
    """a task offered here that is no work for one alone, and how it is done; empty once somebody was told"""
    refused: RuleBroken | None
    open: frozenset[str]
    """parts of the form that are not folded away, because something stands in them"""
    currency: str
    saved_before: str
    """the page of a day that was saved from this form already, with other words"""
    fresh: bool
    """whether nothing was sent yet: then a draft kept on the phone may be put back"""


def log_start(here: Here, asked: Asked, surface: str, task: str, lost: str = "") -> Start:
    """An empty form, with the surface last used and, when it was opened from a task, that task ticked.

    `lost` says to what the day was lost.
    """
    known = {str(one.id) for one in asked.offer.surfaces}
    defaults: dict[str, tuple[str, ...]] = {"surface": (surface,)} if surface in known else {}
    if task in {str(number) for number in asked.offer.task_ids()}:
        defaults["worked"] = (task,)
    if lost.capitalize() in asked.stops:
        defaults |= {"lost": ("yes",), "stopped": (lost.capitalize(),)}
    action = f"{here.base}/workdays/log"
    return Start(action, "Log the day", "Save the day", asked, FormState(defaults))


def amend_start(
    here: Here, asked: Asked, day: DayFacts, entries: tuple[EntryFacts, ...], people: tuple[str, ...]
) -> Start:
    """The day as it stands. Work of helpers on single tasks is not in the form and stays as it is."""
    words, hours = day.words, day.words.hours
    stopped, stopped_in_words = stopped_parts(words.stopped_by, asked.stops)
    typed: dict[str, tuple[str, ...]] = {
        "day": (words.day.isoformat(),),
        "weather": (words.weather,),
        "done": (words.done,),
        "stopped": (stopped,),
        "stopped_by": (stopped_in_words,),
        "next_step": (words.next_step,),
        "filmed": (words.filmed,),
        "lost": ("yes",) if words.lost else (),
        "people": (", ".join(people),),
    }
    minutes = {"own": hours.own, "helper_unpaid": hours.unpaid, "helper_paid": hours.paid, "hired": hours.hired}
    typed |= {name: (field_hours(one),) for name, one in minutes.items() if one}
    own = [entry for entry in entries if entry.who == "self"]
    typed["worked"] = tuple(str(entry.task_id) for entry in own)
    typed |= {f"split_{one.task_id}": (field_hours(one.minutes),) for one in own if one.minutes is not None}
    back = f"{here.base}/workdays/{day.id}"
    heading = f"Amend {show_long_day(words.day)}"
    return Start(f"{back}/amend", heading, "Save the change", asked, FormState(typed), back)


def form_page(
    session: Session,
    here: Here,
    start: Start,
    received: Received | None = None,
    form: FormState | None = None,
    refused: RuleBroken | None = None,
) -> FormPage:
    """`form` and `received` hold what was sent, when it comes back; `refused` why it was not saved."""
    offer, fresh = start.asked.offer, form is None
    form = form or start.form
    kept = received.hidden() if received else {}
    tasks = choices.tasks(offer, start.asked.finished_before)
    return FormPage(
        sheet=here.sheet("G4", "Workdays", start.heading),
        start=start,
        form=form,
        days=choices.days(here.today, form.value("day")),
        usual=tuple((field_hours(one), show_minutes(one)) for one in offer.usual),
        tasks=tasks[: choices.SHOWN_AT_ONCE],
        further_tasks=tasks[choices.SHOWN_AT_ONCE :],
        more_tasks=choices.more_tasks(offer, form.value("more_task")),
        unlisted=max(0, len(offer.more) - choices.MOST_MORE),
        weathers=(("", "Not said"), *((one, one.capitalize()) for one in start.asked.weathers)),
        stops=(("", "Nothing"), *((one, one) for one in start.asked.stops)),
        surfaces=choices.surfaces(offer.surfaces),
        items=choices.items(offer),
        slots=choices.slots(offer),
        shots=choices.shots(offer, form.values("shot")),
        kinds=tuple((kind, kind.capitalize()) for kind in SPEND_KINDS),
        blanks=_blanks(form, kept),
        kept=tuple(kept.get("pictures_kept", ())),
        kept_names=_names(session, received),
        not_taken=received.not_taken if received else (),
        told=offer.told.words() if offer.told and not start.asked.amending else "",
        alone="" if offer.told or start.asked.amending else _alone(offer),
        refused=refused,
        open=_open(form, tasks[choices.SHOWN_AT_ONCE :]),
        currency=here.build.currency,
        saved_before=form.value("saved_before") if form.error("sent_id") else "",
        fresh=fresh,
    )


def _names(session: Session, received: Received | None) -> tuple[str, ...]:
    photos = list_photos(session, received.pictures) if received else ()
    return tuple(photo.original_name or "a picture" for photo in photos)


def _alone(offer: Offer) -> str:
    found = (
        f"“{one.title}” is done {how_words(offer.dangers[one.id])}" for one in offer.first if one.id in offer.dangers
    )
    return next(found, "")


def _blanks(form: FormState, kept: Mapping[str, object]) -> tuple[Blank, ...]:
    legends = ("Something bought", "Something else bought")
    return tuple(
        Blank(
            block,
            legend,
            _any_of(form, tuple(f"{block}_{part}" for part in ("what", "total", "from", "receipt_kept"))),
            form.values(f"{block}_receipt_kept") if kept else (),
        )
        for block, legend in zip(BLOCKS, legends, strict=True)
    )


def _any_of(form: FormState, names: tuple[str, ...]) -> bool:
    return any(form.value(name) or form.error(name) for name in names)


def _open(form: FormState, further: tuple[TaskChoice, ...]) -> frozenset[str]:
    numbers = [str(task.id) for task in further]
    parts = {
        "helpers": _any_of(form, HELPERS),
        "footage": _any_of(form, FOOTAGE),
        "place": _any_of(form, ("item", "slot")),
        "further": any(form.has("worked", one) or form.has("finished", one) for one in numbers),
        "more": _any_of(form, ("more_task", "more_hours")),
        "split": bool(form.error("split"))
        or any(
            name.startswith("split_") and (form.value(name) or form.error(name)) for name in {*form.typed, *form.errors}
        ),
    }
    return frozenset(part for part, is_open in parts.items() if is_open)
