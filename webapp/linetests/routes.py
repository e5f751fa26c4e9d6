"""Tests on lines: put on and taken off on the phone, put right, taken back, and those of a thing for its page."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.core import clock, once
from webapp.core.dependencies import Config, Reading, Sending, Writing
from webapp.core.forms import BadForm
from webapp.core.rendering import go_to, render
from webapp.linetests import actions, forms, pages, store
from webapp.photos.actions import keeping
from webapp.plan.guard import ThisBuild

router = APIRouter(prefix="/builds/{build}/tests")
ONE, START = "linetests/test.html", "linetests/start.html"


@router.get("")
def tests(request: Request, session: Reading, here: ThisBuild) -> Response:
    return render(request, "linetests/tests.html", pages.all_page(session, here))


@router.get("/new")
def new(
    request: Request, session: Reading, here: ThisBuild, line: str = "", surface: str = "", again: int | None = None
) -> Response:
    now = clock.now().astimezone()
    return render(request, START, pages.start_page(session, here, now, again=again, line=line, surface=surface))


@router.post("")
def start(request: Request, session: Writing, here: ThisBuild, sent: Sending, config: Config) -> Response:
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    again = int(sent.text("again")) if sent.text("again").isdecimal() else None
    keep = keeping(session, config.photos, config.picture_mb)
    try:
        begun = forms.read_start(sent, here.today, *pages.ids(session, here.build.id), keep)
    except BadForm as bad:
        page = pages.start_page(session, here, clock.now().astimezone(), bad.state, again)
        return render(request, START, page, status=422)
    test = actions.start_test(session, here.build.id, begun, again)
    return go_to(saving.remember(f"{here.base}/tests/{test.row_id}"), say="The test is on.")


@router.get("/of/{kind}/{code}")
def of(request: Request, session: Reading, here: ThisBuild, kind: str, code: str) -> Response:
    return render(request, "linetests/of.html", pages.of_page(session, here, kind, code), ("of",))


@router.get("/{test_id}")
def one(request: Request, session: Reading, here: ThisBuild, test_id: int, do: str = "") -> Response:
    return render(request, ONE, pages.one_page(session, here, clock.now().astimezone(), test_id, do))


@router.post("/{test_id}/end")
def end(request: Request, session: Writing, here: ThisBuild, sent: Sending, config: Config, test_id: int) -> Response:
    test = store.get_test(session, here.build.id, test_id)
    try:
        ended = forms.read_end(sent, here.today, test, keeping(session, config.photos, config.picture_mb))
    except BadForm as bad:
        page = pages.one_page(session, here, clock.now().astimezone(), test_id, "end", bad.state)
        return render(request, ONE, page, status=422)
    actions.end_test(session, here.build.id, test_id, ended)
    return go_to(f"{here.base}/tests/{test_id}", say="The test is off and on record.")


@router.post("/{test_id}/right")
def right(request: Request, session: Writing, here: ThisBuild, sent: Sending, config: Config, test_id: int) -> Response:
    test, keep = store.get_test(session, here.build.id, test_id), keeping(session, config.photos, config.picture_mb)
    try:
        read = forms.read_amended(sent, here.today, test, *pages.ids(session, here.build.id), keep)
    except BadForm as bad:
        page = pages.one_page(session, here, clock.now().astimezone(), test_id, "right", bad.state)
        return render(request, ONE, page, status=422)
    changed = actions.amend_test(session, here.build.id, test_id, *read)
    say = "Put right. What stood there before is kept below." if changed else "Nothing was different."
    return go_to(f"{here.base}/tests/{test_id}", say=say)


@router.post("/{test_id}/back")
def back(request: Request, session: Writing, here: ThisBuild, sent: Sending, test_id: int) -> Response:
    try:
        on, why = forms.read_taken_back(sent, here.today)
    except BadForm as bad:
        page = pages.one_page(session, here, clock.now().astimezone(), test_id, "back", bad.state)
        return render(request, ONE, page, status=422)
    actions.take_back(session, here.build.id, test_id, on, why)
    return go_to(f"{here.base}/tests/{test_id}", say="It counts no more, and stays readable.")
