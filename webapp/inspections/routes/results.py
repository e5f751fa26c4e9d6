"""A result, and putting it right: theirs, or my mistake."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.core.dependencies import Config, Reading, Sending, Writing
from webapp.core.forms import BadForm
from webapp.core.rendering import go_to, render
from webapp.hired.store import hired_choices, list_hired
from webapp.inspections import actions, forms, pages, store
from webapp.inspections.actions.hired import attach_what_came
from webapp.papers.rules.kinds import AboutKind
from webapp.photos.actions import keeping
from webapp.plan.guard import ThisBuild

router = APIRouter(prefix="/results/{result_id}")


@router.get("")
def result(request: Request, session: Reading, here: ThisBuild, result_id: int, do: str = "") -> Response:
    return render(request, "inspections/result.html", pages.result_page(session, here, result_id, do=do))


@router.post("/withdraw")
def withdraw_result(
    request: Request, session: Writing, here: ThisBuild, sent: Sending, config: Config, result_id: int
) -> Response:
    try:
        taken = forms.read_withdrawal(sent, here.today, keeping(session, config.photos, config.picture_mb))
    except BadForm as bad:
        page = pages.result_page(session, here, result_id, bad.state, "withdraw")
        return render(request, "inspections/result.html", page, status=422)
    actions.withdraw_result(session, here.build.id, result_id, taken.on, taken.who, taken.why, taken.letter_id)
    return go_to(f"{here.base}/results/{result_id}", say="Taken back. What relied on it is locked again.")


@router.post("/correct")
def correct_result(
    request: Request, session: Writing, here: ThisBuild, sent: Sending, config: Config, result_id: int
) -> Response:
    before = store.get_result(session, here.build.id, result_id)
    inspection = store.get_inspection_by_id(session, here.build.id, before.inspection_id)
    try:
        keep, hired = keeping(session, config.photos, config.picture_mb), dict(hired_choices(session, here.build.id))
        right = forms.read_changed_result(sent, inspection, keep, hired)
    except BadForm as bad:
        page = pages.result_page(session, here, result_id, bad.state, "correct")
        return render(request, "inspections/result.html", page, status=422)
    new_id = actions.correct_result(session, here.build.id, result_id, right.new, here.today, right.why, right.rests)
    return go_to(f"{here.base}/results/{new_id}", say="Put right. The mistyped one stays readable, and counts no more.")


@router.post("/paper")
def attach_paper(
    request: Request, session: Writing, here: ThisBuild, sent: Sending, config: Config, result_id: int
) -> Response:
    """The card or report, once it is there: until then a pass that was passed on frees nothing."""
    before = store.get_result(session, here.build.id, result_id)
    trade = next((one for one in list_hired(session, here.build.id) if one.id == before.hired_id), None)
    waits = [key for key, _ in pages.waits_shown(trade)]
    try:
        paper, wait_id = forms.read_attached(sent, keeping(session, config.photos, config.picture_mb), waits)
    except BadForm as bad:
        page = pages.result_page(session, here, result_id, bad.state, "paper")
        return render(request, "inspections/result.html", page, status=422)
    if wait_id is None:
        actions.attach_paper(session, here.build.id, result_id, paper)
        return go_to(f"{here.base}/results/{result_id}", say="Attached. What it rested on before is kept.")
    about = (AboutKind.VISIT.value, before.visit_id)
    attach_what_came(session, here.build.id, result_id, paper, wait_id, here.today, about)
    say = "Attached, and here: what was waited for is waited for no more. What it rested on before is kept."
    return go_to(f"{here.base}/results/{result_id}", say=say)
