"""Builds, phases, tasks and what needs what."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.core import once
from webapp.core.dependencies import Reading, Sending, Writing
from webapp.core.forms import BadForm
from webapp.core.merging import merged
from webapp.core.rendering import go_to, render, render_kept, wants_fragment
from webapp.plan import actions, forms, pages, store
from webapp.plan.guard import NoBuild, ThisBuild
from webapp.plan.routes import booked

router = APIRouter()
router.include_router(booked.router)


@router.get("/builds")
def builds(request: Request, session: Reading, outside: NoBuild) -> Response:
    return render(request, "plan/builds.html", pages.builds_page(session, outside))


@router.post("/builds")
def add_build(request: Request, session: Writing, outside: NoBuild, sent: Sending) -> Response:
    names = [build.name for build in store.list_builds(session)]
    try:
        new = forms.read_build(sent, names, [value for value, _ in pages.lot_choices(session)])
    except BadForm as bad:
        return render(request, "plan/builds.html", pages.builds_page(session, outside, bad.state), status=422)
    build = actions.add_build(session, new)
    return go_to(f"/builds/{build.slug}/phases", say=f"“{build.name}” is begun.")


@router.get("/builds/{build}/lot")
def lot(request: Request, session: Reading, here: ThisBuild) -> Response:
    return render(request, "plan/lot.html", pages.lot_page(session, here))


@router.post("/builds/{build}/lot")
def put_on_lot(request: Request, session: Writing, here: ThisBuild, sent: Sending) -> Response:
    try:
        lot_id, new_name = forms.read_lot(sent, [value for value, _ in pages.lot_choices(session)])
    except BadForm as bad:
        return render(request, "plan/lot.html", pages.lot_page(session, here, bad.state), status=422)
    actions.put_on_lot(session, here.build.id, lot_id, new_name)
    return go_to(f"{here.base}/permits", say="Kept.")


@router.get("/builds/{build}/words")
def own_words(request: Request, here: ThisBuild) -> Response:
    return render(request, "plan/own_words.html", pages.own_words_page(here))


@router.post("/builds/{build}/words")
def say_own_words(request: Request, session: Writing, here: ThisBuild, sent: Sending) -> Response:
    try:
        words = forms.read_own_words(sent)
    except BadForm as bad:
        return render(request, "plan/own_words.html", pages.own_words_page(here, bad.state), status=422)
    actions.say_own_words(session, here.build.id, words)
    return go_to(f"{here.base}/words", say="Every page says it your way from now on.")


@router.get("/builds/{build}/phases")
def phases(request: Request, session: Reading, here: ThisBuild, order: bool = False) -> Response:
    template, blocks = "plan/phases.html", ("phases",)
    return render_kept(
        request, session, here, template, lambda: pages.phases_page(session, here, ordering=order), blocks
    )


@router.post("/builds/{build}/phases")
def add_phase(request: Request, session: Writing, here: ThisBuild, sent: Sending) -> Response:
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    try:
        title, purpose = forms.read_phase(sent)
    except BadForm as bad:
        return render(request, "plan/phases.html", pages.phases_page(session, here, bad.state), status=422)
    phase = actions.add_phase(session, here.build.id, title, purpose)
    answer = f"{here.base}/phases#phase-{phase.id}"
    return go_to(saving.remember(answer), say=f"“{title}” is the last phase now.")


@router.get("/builds/{build}/phases/{phase_id}")
def phase(request: Request, session: Reading, here: ThisBuild, phase_id: int, order: bool = False) -> Response:
    template, blocks = "plan/phase.html", ("tasks",)
    return render_kept(
        request, session, here, template, lambda: pages.phase_page(session, here, phase_id, ordering=order), blocks
    )


@router.get("/builds/{build}/phases/{phase_id}/edit")
def phase_form(request: Request, session: Reading, here: ThisBuild, phase_id: int) -> Response:
    return render(request, "plan/phase_edit.html", pages.phase_edit_page(session, here, phase_id))


@router.post("/builds/{build}/phases/{phase_id}/edit")
def edit_phase(request: Request, session: Writing, here: ThisBuild, sent: Sending, phase_id: int) -> Response:
    try:
        title, purpose = forms.read_phase(sent)
    except BadForm as bad:
        page = pages.phase_edit_page(session, here, phase_id, bad.state)
        return render(request, "plan/phase_edit.html", page, status=422)
    actions.edit_phase(session, here.build.id, phase_id, title, purpose)
    return go_to(f"{here.base}/phases/{phase_id}", say="Changed.")


@router.post("/builds/{build}/phases/{phase_id}/tasks")
def add_task(request: Request, session: Writing, here: ThisBuild, sent: Sending, phase_id: int) -> Response:
    saving = once.saving(session, sent)
    answer, say = f"{here.base}/phases/{phase_id}#add", ""
    if not saving.before:
        try:
            planned = forms.read_task(sent)
        except BadForm as bad:
            page = pages.phase_page(session, here, phase_id, bad.state)
            return render(request, "plan/phase.html", page, blocks=("tasks",), status=422)
        task = actions.add_task(session, here.build.id, phase_id, planned)
        saving.remember(answer)
        say = f"“{task.title}” is on the list."
    if wants_fragment(request):
        page = pages.phase_page(session, here, phase_id, added=True)
        return render(request, "plan/phase.html", page, blocks=("tasks",))
    return go_to(answer, say=say)


@router.get("/builds/{build}/tasks/{task_id}")
def task(request: Request, session: Reading, here: ThisBuild, task_id: int) -> Response:
    return render_kept(request, session, here, "plan/task.html", lambda: pages.task_page(session, here, task_id))


@router.get("/builds/{build}/tasks/{task_id}/edit")
def task_form(request: Request, session: Reading, here: ThisBuild, task_id: int) -> Response:
    return render(request, "plan/task_edit.html", pages.task_edit_page(session, here, task_id))


@router.post("/builds/{build}/tasks/{task_id}/edit")
def edit_task(request: Request, session: Writing, here: ThisBuild, sent: Sending, task_id: int) -> Response:
    was = store.get_task(session, here.build.id, task_id)
    phase_ids = [phase.id for phase in store.list_phases(session, here.build.id)]
    try:
        sent = merged(sent, pages.task_edit_page(session, here, task_id).form)
        planned, phase_id, started = forms.read_edit(sent, was, phase_ids, here.today)
    except BadForm as bad:
        page = pages.task_edit_page(session, here, task_id, bad.state)
        return render(request, "plan/task_edit.html", page, status=422)
    actions.edit_task(session, here.build.id, task_id, planned, phase_id)
    actions.correct_days(session, task_id, started, was.done_on)
    return go_to(f"{here.base}/tasks/{task_id}", say="Changed.")


@router.post("/builds/{build}/tasks/{task_id}/start")
def start_task(request: Request, session: Writing, here: ThisBuild, sent: Sending, task_id: int) -> Response:
    task = store.get_task(session, here.build.id, task_id)
    try:
        on = forms.read_on(sent, here.today)
    except BadForm as bad:
        return render(request, "plan/task.html", pages.task_page(session, here, task_id, bad.state), status=422)
    actions.start_task(session, task.id, on)
    return go_to(f"{here.base}/tasks/{task_id}", say=f"“{task.title}” is under way.")


@router.post("/builds/{build}/tasks/{task_id}/reopen")
def reopen_task(request: Request, session: Writing, here: ThisBuild, sent: Sending, task_id: int) -> Response:
    task = store.get_task(session, here.build.id, task_id)
    try:
        why = forms.read_why(sent)
    except BadForm as bad:
        return render(request, "plan/task.html", pages.task_page(session, here, task_id, bad.state), status=422)
    actions.reopen_task(session, task.id, here.today, why)
    return go_to(f"{here.base}/tasks/{task_id}", say=f"“{task.title}” is open again. What waited for it waits again.")


@router.get("/builds/{build}/tasks/{task_id}/needs")
def needs(request: Request, session: Reading, here: ThisBuild, task_id: int, phase: int | None = None) -> Response:
    return render(request, "plan/needs.html", pages.needs_page(session, here, task_id, phase), blocks=("add",))


@router.post("/builds/{build}/tasks/{task_id}/needs")
def add_need(request: Request, session: Writing, here: ThisBuild, sent: Sending, task_id: int) -> Response:
    phase_id = forms.read_phase_id(sent) or store.get_task(session, here.build.id, task_id).phase_id
    offered = [task.id for task in store.list_phase_tasks(session, phase_id)]
    try:
        typed = forms.read_need(sent, task_id, offered)
    except BadForm as bad:
        page = pages.needs_page(session, here, task_id, phase_id, bad.state)
        return render(request, "plan/needs.html", page, status=422)
    try:
        actions.add_need(session, here.build, typed)
    except actions.Circle as circle:
        return render(request, "plan/circle.html", pages.circle_page(here, circle), status=409)
    return go_to(f"{here.base}/tasks/{task_id}/needs", say="Written down.")


@router.post("/builds/{build}/tasks/{task_id}/needs/{need_id}/drop")
def drop_need(session: Writing, here: ThisBuild, task_id: int, need_id: int) -> Response:
    actions.drop_need(session, here.build.id, need_id)
    return go_to(f"{here.base}/tasks/{task_id}/needs", say="Taken out. Its history keeps a line of it.")
