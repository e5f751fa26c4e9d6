"""Pages of workdays: the phone's form, the page after it, all days, one day, a day put right."""

from datetime import date
from functools import partial

from fastapi import APIRouter, Request
from sqlmodel import Session
from starlette.responses import Response

from webapp.core import once
from webapp.core.dependencies import Config, Known, Moment, Reading, Sending, Writing
from webapp.core.forms import BadForm, FieldError, FormState, Submitted
from webapp.core.rendering import go_to, render, render_kept
from webapp.core.settings import Settings
from webapp.plan.guard import Here, ThisBuild
from webapp.plan.rules.dangers import NO_PROMISE
from webapp.readiness.actions import refuse_clash
from webapp.readiness.store import site
from webapp.surfaces.guard import last_surface, stay_at
from webapp.values.errors import BadInput, RuleBroken
from webapp.workdays import actions, forms, pages, store
from webapp.workdays.actions import Logged, Received
from webapp.workdays.pages import Start
from webapp.workdays.rules.freed import in_address
from webapp.workdays.rules.said import DayForm, held_back_words, not_taken_words
from webapp.workdays.store.people import day_people

router = APIRouter(prefix="/builds/{build}")
SENT_BEFORE = "A day was saved from this page already, with other words in it."


@router.get("/workdays")
def days(request: Request, session: Reading, here: ThisBuild, before: str = "") -> Response:
    try:
        earlier = date.fromisoformat(before)
    except ValueError:
        earlier = None
    return render_kept(request, session, here, "workdays/days.html", lambda: pages.days_page(session, here, earlier))


@router.get("/workdays/log")
def log(
    request: Request, session: Reading, here: ThisBuild, surface: str = "", task: str = "", lost: str = ""
) -> Response:
    surface = surface or last_surface(request)

    def page() -> pages.FormPage:
        asked = store.ask(session, here.build, here.today)
        return pages.form_page(session, here, pages.log_start(here, asked, surface, task, lost))

    return render_kept(request, session, (here, surface), "workdays/form.html", page)


@router.post("/workdays/log")
def save(request: Request, session: Writing, here: ThisBuild, sent: Sending, config: Config, seen: Known) -> Response:
    start = pages.log_start(here, store.ask(session, here.build, here.today), "", "")
    return _save(request, session, here, sent, config, start, seen=seen)


@router.get("/workdays/{workday_id}")
def day(request: Request, session: Reading, here: ThisBuild, workday_id: int) -> Response:
    return render(request, "workdays/day.html", pages.day_page(session, here, workday_id))


@router.get("/workdays/{workday_id}/saved")
def saved(request: Request, session: Reading, here: ThisBuild, workday_id: int, freed: str = "") -> Response:
    return render(request, "workdays/saved.html", pages.saved_page(session, here, workday_id, freed))


@router.get("/workdays/{workday_id}/amend")
def amend(request: Request, session: Reading, here: ThisBuild, workday_id: int) -> Response:
    start = _amending(session, here, workday_id)
    return render(request, "workdays/form.html", pages.form_page(session, here, start))


@router.post("/workdays/{workday_id}/amend")
def save_amended(
    request: Request, session: Writing, here: ThisBuild, sent: Sending, config: Config, workday_id: int
) -> Response:
    return _save(request, session, here, sent, config, _amending(session, here, workday_id), workday_id)


@router.get("/tasks/{task_id}/took")
def took(request: Request, session: Reading, here: ThisBuild, task_id: int) -> Response:
    template, blocks = "workdays/took.html", ("panel",)
    return render_kept(request, session, here, template, lambda: pages.took_page(session, here, task_id), blocks)


@router.get("/alone")
def alone(request: Request, session: Reading, here: ThisBuild, now: Moment, task: str = "") -> Response:
    return render(request, "workdays/alone.html", pages.alone_page(session, here, f"{now:%H:%M}", task))


@router.post("/alone")
def tell(request: Request, session: Writing, here: ThisBuild, sent: Sending, now: Moment) -> Response:
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    known = [task.id for task in site(session, here.build, here.today).record.tasks]
    try:
        telling = forms.read_telling(sent, known, f"{now:%H:%M}")
    except BadForm as bad:
        page = pages.alone_page(session, here, f"{now:%H:%M}", form=bad.state)
        return render(request, "workdays/alone.html", page, status=422)
    actions.tell(session, here.build.id, here.today, telling)
    said = f"Told {telling.whom}, back by {telling.back_by}. It stays with the day. {NO_PROMISE}"
    return go_to(saving.remember(f"{here.base}/today"), say=said)


@router.post("/alone/back")
def come_back(session: Writing, here: ThisBuild, sent: Sending) -> Response:
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    was = actions.come_back(session, here.build.id)
    answer = saving.remember(f"{here.base}/today")
    return go_to(answer, say="Good. It stays with the day; tell them too." if was else "Nobody waited for that.")


@router.get("/people")
def people(request: Request, session: Reading, here: ThisBuild) -> Response:
    return render(request, "workdays/people.html", pages.people_page(session, here))


@router.post("/people/{person_id}")
def say_yes(session: Writing, here: ThisBuild, sent: Sending, person_id: int) -> Response:
    yes = sent.text("said") == "yes"
    name = actions.say_yes(session, here.build.id, person_id, here.today if yes else None)
    said = f"{name} may be named." if yes else f"{name} stays private. What went out already stays as it was."
    return go_to(f"{here.base}/people", say=said)


def _amending(session: Session, here: Here, workday_id: int) -> Start:
    found = store.get_day(session, here.build.id, workday_id)
    entries = store.list_entries(session, workday_id)
    asked = store.ask(session, here.build, here.today, found, entries)
    return pages.amend_start(here, asked, found, entries, day_people(session, workday_id))


def _save(
    request: Request,
    session: Session,
    here: Here,
    sent: Submitted,
    config: Settings,
    start: Start,
    workday_id: int | None = None,
    seen: once.Seen | None = None,
) -> Response:
    """Save a new day or an amended one, once. What is refused comes back as it was typed, with its pictures kept."""
    received = forms.receive(session, sent, config.photos, config.picture_mb)
    try:
        path, said = _write(session, here, sent, start, received, workday_id, seen)
    except BadForm as bad:
        page = pages.form_page(session, here, start, received, bad.state)
        return render(request, "workdays/form.html", page, status=422)
    except RuleBroken as refused:
        state = FormState({**sent.typed(), **received.hidden()})
        page = pages.form_page(session, here, start, received, state, refused)
        return render(request, "workdays/form.html", page, status=409)
    return stay_at(go_to(path, say=said), sent.text("surface"))


def _write(
    session: Session,
    here: Here,
    sent: Submitted,
    start: Start,
    received: Received,
    workday_id: int | None,
    seen: once.Seen | None,
) -> tuple[str, str]:
    """The page that answers, and what it says once. The same sending again gives the same page and writes nothing."""
    said = not_taken_words(received.not_taken)
    try:
        saving = once.saving(session, sent, forms.digest_of_day(sent, received))
    except BadInput:
        answer = store.sent_answer(session, once.id_of(sent)) or ""
        known = {**sent.typed(), **received.hidden(), "saved_before": (answer,)}
        raise BadForm(FormState(known, {"sent_id": FieldError(SENT_BEFORE)})) from None
    if saving.before:
        return saving.before, said
    form = forms.read_day(sent, received, start.asked, partial(_noted, session, here, workday_id))
    refuse_clash(session, start.asked.offer.site, form.ticked, seen)
    logged = _logged(session, start, form, workday_id)
    path = f"{here.base}/workdays/{logged.workday_id}/saved?freed={in_address(logged.freed)}"
    return saving.remember(path), " ".join(filter(None, (held_back_words(logged.held_back), said)))


def _noted(session: Session, here: Here, but: int | None, day: date) -> int:
    return store.noted_minutes(session, here.build.id, day, but)


def _logged(session: Session, start: Start, form: DayForm, workday_id: int | None) -> Logged:
    site = start.asked.offer.site
    if workday_id is None:
        return actions.log_day(session, site, form)
    return actions.amend_day(session, site, workday_id, form)
