"""One surface: its sheet, its form, the count of boxes, opening up."""

from fastapi import APIRouter, Request
from sqlmodel import Session
from starlette.responses import Response

from webapp.core import once
from webapp.core.dependencies import Reading, Sending, Writing
from webapp.core.forms import BadForm, Submitted
from webapp.core.merging import merged
from webapp.core.rendering import go_to, render, render_kept
from webapp.plan.guard import Here, ThisBuild
from webapp.plan.store import list_phases
from webapp.surfaces import actions, forms, pages, store
from webapp.surfaces.rules.counting import missing_words
from webapp.values.errors import BadInput

router = APIRouter(prefix="/surfaces")
EARLIER, LATER = -1, 1


def _ask_outside(
    session: Session, here: Here, sent: Submitted, known: store.SurfaceFacts, draft: actions.SurfaceDraft
) -> None:
    """Only where it is measured anew: what lies outside already was asked about then."""
    if (known.length_nm, known.height_nm) == (draft.length_nm, draft.height_nm):
        return
    items = (one for one in store.list_items(session, here.build.id) if one.surface_id == known.id)
    runs = (one for one in store.list_runs(session, here.build.id) if one.surface_id == known.id)
    forms.ask_outside(sent, draft, items, store.openings_of(session, here.build.id, known.id), runs)


@router.get("/new")
def new_surface(request: Request, session: Reading, here: ThisBuild) -> Response:
    return render(request, "surfaces/edit.html", pages.edit_page(session, here, ""))


@router.post("")
def add_surface(request: Request, session: Writing, here: ThisBuild, sent: Sending) -> Response:
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    try:
        taken = tuple(surface.code for surface in store.list_surfaces(session, here.build.id))
        code, draft = forms.read_new_surface(sent, here, taken)
    except BadForm as bad:
        return render(request, "surfaces/edit.html", pages.edit_page(session, here, "", bad.state), status=422)
    made = actions.add_surface(session, here.build.id, code, draft)
    actions.put_after(session, here.build.id, made.row_id, sent.text("after"))
    answer = saving.remember(f"{here.base}/surfaces/{made.code}")
    return go_to(answer, say=f"“{made.name}” is on the list.")


@router.post("/{code}/move")
def move_surface(session: Writing, here: ThisBuild, sent: Sending, code: str) -> Response:
    """One place on the round; the key plan numbers them anew."""
    known = store.get_surface(session, here.build.id, code)
    actions.move_surface(session, here.build.id, known.id, EARLIER if sent.text("to") == "earlier" else LATER)
    return go_to(f"{here.base}/surfaces?order=1#round-{known.code}")


@router.get("/{code}")
def surface(request: Request, session: Reading, here: ThisBuild, code: str) -> Response:
    template = "surfaces/surface.html"
    return render_kept(request, session, here, template, lambda: pages.surface_page(session, here, code))


@router.get("/{code}/drawing")
def drawing(
    request: Request,
    session: Reading,
    here: ThisBuild,
    code: str,
    mirror: str = "",
    replaced: str = "",
    other: str = "",
    new: int = 0,
) -> Response:
    """As seen from the other side with `mirror=1`, with what was moved since (`replaced=1`), over what is on the other
    face (`other=1`); `new` is the thing to be marked."""
    seen = pages.Seen.of(mirror, replaced, other)
    template = "surfaces/drawing.html"
    return render_kept(request, session, here, template, lambda: pages.drawing_page(session, here, code, seen, new=new))


@router.get("/{code}/edit")
def edit_surface(request: Request, session: Reading, here: ThisBuild, code: str) -> Response:
    return render(request, "surfaces/edit.html", pages.edit_page(session, here, code))


@router.post("/{code}/edit")
def save_surface(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str) -> Response:
    known = store.get_surface(session, here.build.id, code)
    try:
        sent = merged(sent, pages.edit_page(session, here, code).form)
        draft, other = forms.read_surface(sent, here, known, store.list_surfaces(session, here.build.id))
        _ask_outside(session, here, sent, known, draft)
    except BadForm as bad:
        return render(request, "surfaces/edit.html", pages.edit_page(session, here, code, bad.state), status=422)
    actions.edit_surface(session, here.build.id, known.id, draft)
    actions.say_other_face(session, here.build.id, known.id, other.id if other else None)
    return go_to(f"{here.base}/surfaces/{known.code}", say="Saved.")


@router.get("/{code}/boxes")
def boxes(request: Request, session: Reading, here: ThisBuild, code: str) -> Response:
    return render(request, "surfaces/boxes.html", pages.boxes_page(session, here, code))


@router.post("/{code}/boxes")
def count_boxes(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str) -> Response:
    known = store.get_surface(session, here.build.id, code)
    boxes = pages.boxes_of(session, here, known)
    try:
        form = forms.read_count(sent, known, (box.id for box in boxes))
    except BadForm as bad:
        return render(request, "surfaces/boxes.html", pages.boxes_page(session, here, code, bad.state), status=422)
    actions.count_boxes(session, known.id, form.before, why=form.why)
    missing = ""
    if form.after is not None:
        before = form.before if form.before is not None else known.boxes_before
        missing = missing_words(before, form.after, boxes, form.found)
        actions.count_again(session, here.build.id, known.id, form.after, form.why, missing, here.today)
    return go_to(f"{here.base}/surfaces/{known.code}", say=missing or "The count is on record.")


@router.get("/{code}/open-again")
def opening(request: Request, session: Reading, here: ThisBuild, code: str) -> Response:
    return render(request, "surfaces/open_again.html", pages.open_page(session, here, code))


@router.post("/{code}/open-again")
def open_again(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str) -> Response:
    known = store.get_surface(session, here.build.id, code)
    if known.covered_on is None:
        raise BadInput(f"{known.name} is not closed, so there is nothing to open.")
    try:
        form = forms.read_open(sent, here, known, [phase.id for phase in list_phases(session, here.build.id)])
    except BadForm as bad:
        return render(request, "surfaces/open_again.html", pages.open_page(session, here, code, bad.state), status=422)
    say = f"{known.name} is open again. Its closing stays on record."
    if form.minutes is None:
        actions.open_again(session, known.id, form.on, form.why)
    else:
        actions.open_with_work(session, here.build, known, form.on, form.why, form.minutes, form.phase_id)
        say += f" “Close {known.code} again” is on the list of tasks."
    return go_to(f"{here.base}/surfaces/{known.code}", say=say)
