"""The builder's list of inspections, one of them, and what to have ready for it."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.core import once
from webapp.core.dependencies import Reading, Sending, Writing
from webapp.core.forms import BadForm, Submitted
from webapp.core.rendering import go_to, render, render_kept
from webapp.inspections import actions, forms, pages, store
from webapp.inspections.pages.asking import asking_of
from webapp.inspections.pages.book import read_book
from webapp.inspections.pages.inspections import InspectionFormPage
from webapp.inspections.rules.record import InspectionForm
from webapp.plan.guard import ThisBuild
from webapp.values.words import plural

router = APIRouter()


def _read(sent: Submitted, page: InspectionFormPage) -> InspectionForm:
    permits = {value: int(value) for value, _ in page.permits}
    surfaces, offices = ({value: int(value) for value, _ in some if value} for some in (page.surfaces, page.offices))
    return forms.read_inspection(sent, permits, surfaces, offices)


@router.get("/inspections")
def inspections(request: Request, session: Reading, here: ThisBuild, order: bool = False) -> Response:
    template, blocks = "inspections/inspections.html", ("schedule",)
    return render_kept(
        request, session, here, template, lambda: pages.inspections_page(session, here, ordering=order), blocks
    )


@router.get("/inspections/new")
def new_inspection(request: Request, session: Reading, here: ThisBuild) -> Response:
    return render(request, "inspections/inspection_form.html", pages.inspection_form_page(session, here))


@router.post("/inspections")
def add_inspection(request: Request, session: Writing, here: ThisBuild, sent: Sending) -> Response:
    try:
        form = _read(sent, pages.inspection_form_page(session, here))
    except BadForm as bad:
        page = pages.inspection_form_page(session, here, form=bad.state)
        return render(request, "inspections/inspection_form.html", page, status=422)
    made = actions.add_inspection(session, here.build.id, form)
    return go_to(
        f"{here.base}/inspections/{made.code}", say=f"{made.name} is last in the order; move it where it belongs."
    )


@router.get("/inspections/{code}")
def inspection(request: Request, session: Reading, here: ThisBuild, code: str) -> Response:
    template = "inspections/inspection.html"
    return render_kept(request, session, here, template, lambda: pages.inspection_page(session, here, code))


@router.get("/inspections/{code}/edit")
def inspection_form(request: Request, session: Reading, here: ThisBuild, code: str) -> Response:
    return render(request, "inspections/inspection_form.html", pages.inspection_form_page(session, here, code))


@router.post("/inspections/{code}/edit")
def edit_inspection(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str) -> Response:
    try:
        form = _read(sent, pages.inspection_form_page(session, here, code))
    except BadForm as bad:
        page = pages.inspection_form_page(session, here, code, bad.state)
        return render(request, "inspections/inspection_form.html", page, status=422)
    changed = actions.edit_inspection(session, here.build.id, code, form, sent.text("why")[:400])
    say = f"Changed: {plural(changed, 'part')}. What stood there before is kept below."
    return go_to(f"{here.base}/inspections/{form.code}", say=say if changed else "Nothing was different.")


@router.post("/inspections/{code}/visits")
def book_visit(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str) -> Response:
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    inspection = store.get_inspection(session, here.build.id, code)
    try:
        new = forms.read_booking(sent, here.today, asking_of(read_book(session, here), inspection))
    except BadForm as bad:
        page = pages.inspection_page(session, here, code, bad.state)
        return render(request, "inspections/inspection.html", page, status=422)
    actions.book_visit(
        session,
        here.build.id,
        inspection.id,
        new.day,
        new.asked_on,
        new.window,
        new.note,
        base=here.base,
        who_there=new.who_there,
        asked_how=new.asked_how,
        remote=new.remote,
    )
    answer = f"{here.base}/inspections/{code}"
    return go_to(saving.remember(answer), say="The visit is on the list.")


@router.post("/inspections/{code}/asked")
def add_asked_item(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str) -> Response:
    inspection_id = store.get_inspection(session, here.build.id, code).id
    try:
        new = forms.read_asked(sent)
    except BadForm as bad:
        page = pages.inspection_page(session, here, code, bad.state)
        return render(request, "inspections/inspection.html", page, status=422)
    actions.add_asked_item(session, here.build.id, inspection_id, new, here.today)
    return go_to(f"{here.base}/inspections/{code}#ready", say=f"“{new.words}” is on the list of what to have ready.")


@router.post("/asked/{asked_id}")
def asked_item(session: Writing, here: ThisBuild, sent: Sending, asked_id: int) -> Response:
    item = store.get_asked(session, here.build.id, asked_id)
    now = None if sent.text("to") in {"undone", "wanted"} else here.today
    if sent.text("to") in {"dropped", "wanted"}:
        actions.drop_asked_item(session, here.build.id, asked_id, now)
    else:
        actions.asked_item_done(session, here.build.id, asked_id, now)
    code = store.get_inspection_by_id(session, here.build.id, item.inspection_id).code
    return go_to(f"{here.base}/inspections/{code}#ready")
