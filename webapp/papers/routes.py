"""Papers: the list, one paper, its file, and the papers of a thing for the page of that thing."""

from typing import Annotated, Any

from fastapi import APIRouter, Depends, Request
from starlette.responses import FileResponse, Response

from webapp.core import once
from webapp.core.dependencies import Config, Reading, Sending, Writing
from webapp.core.forms import BadForm
from webapp.core.rendering import go_to, render
from webapp.papers import actions, forms, pages, store
from webapp.papers.files import find_file
from webapp.papers.pages import Things
from webapp.papers.rules.things import by_key
from webapp.plan.guard import ThisBuild
from webapp.values.errors import NotFound

router = APIRouter(prefix="/builds/{build}/papers")
ONE, FORM = "papers/paper.html", "papers/form.html"
SAFE = {"Content-Security-Policy": "sandbox; default-src 'none'", "Cache-Control": "private, no-cache"}
"""a file can be made to do things where it is opened: here it is only handed over"""


def things_of(request: Request, session: Reading, here: ThisBuild) -> Things:
    """What papers can be about: named by packages above this one, put together at the top."""
    found: Things = request.app.state.things(session, here)
    return found


Named = Annotated[Any, Depends(things_of)]


@router.get("")
def papers(
    request: Request, session: Reading, here: ThisBuild, things: Named, kind: str = "", at: str = ""
) -> Response:
    return render(request, "papers/papers.html", pages.papers_page(session, here, things, kind, at))


@router.get("/new")
def new(
    request: Request, session: Reading, here: ThisBuild, things: Named, config: Config, kind: str = "", about: str = ""
) -> Response:
    blank = forms.blank(kind, about)
    return render(request, FORM, pages.paper_form_page(session, here, things, config.paper_mb, form=blank))


@router.post("")
def add(request: Request, session: Writing, here: ThisBuild, things: Named, sent: Sending, config: Config) -> Response:
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    keep = actions.keeping_paper(session, config)
    try:
        draft = forms.read_paper(sent, here.today, by_key(things), keep, config.papers)
    except BadForm as bad:
        page = pages.paper_form_page(session, here, things, config.paper_mb, form=bad.state)
        return render(request, FORM, page, status=422)
    paper = actions.add_paper(session, here.build.id, draft)
    return go_to(saving.remember(f"{here.base}/papers/{paper.code}"), say="The paper is on record.")


@router.get("/of/{kind}/{name}")
def of(request: Request, session: Reading, here: ThisBuild, things: Named, kind: str, name: str) -> Response:
    return render(request, "papers/of.html", pages.papers_of(session, here, things, kind, name), ("of",))


@router.get("/{code}")
def paper(request: Request, session: Reading, here: ThisBuild, things: Named, code: str) -> Response:
    return render(request, ONE, pages.paper_page(session, here, things, code))


@router.get("/{code}/file")
def file(session: Reading, here: ThisBuild, config: Config, code: str) -> Response:
    """The file as it came, always as a download."""
    found = store.get_paper(session, here.build.id, code)
    path = find_file(config.papers, found.file_sha256)
    if path is None:
        raise NotFound("The file of this paper is not in the papers folder. A copy may still hold it.")
    name = found.file_name or f"{found.code}.pdf"
    return FileResponse(
        path, media_type=found.media_type, filename=name, content_disposition_type="attachment", headers=SAFE
    )


@router.get("/{code}/edit")
def edit(request: Request, session: Reading, here: ThisBuild, things: Named, config: Config, code: str) -> Response:
    return render(request, FORM, pages.paper_form_page(session, here, things, config.paper_mb, code))


@router.post("/{code}/edit")
def change(
    request: Request, session: Writing, here: ThisBuild, things: Named, sent: Sending, config: Config, code: str
) -> Response:
    was, keep = store.get_paper(session, here.build.id, code), actions.keeping_paper(session, config)
    try:
        draft = forms.read_paper(sent, here.today, by_key(things), keep, config.papers, was)
    except BadForm as bad:
        page = pages.paper_form_page(session, here, things, config.paper_mb, code, bad.state)
        return render(request, FORM, page, status=422)
    paper = actions.change_paper(session, here.build.id, was.id, draft)
    say = "Put right." if paper.code == code else f"{paper.code} stands in its place; {code} is kept."
    return go_to(f"{here.base}/papers/{paper.code}", say=say)


@router.post("/{code}/end")
def end(request: Request, session: Writing, here: ThisBuild, things: Named, sent: Sending, code: str) -> Response:
    was = store.get_paper(session, here.build.id, code)
    try:
        on = forms.read_ended(sent, here.today)
    except BadForm as bad:
        return render(request, ONE, pages.paper_page(session, here, things, code, bad.state), status=422)
    actions.put_away(session, here.build.id, was.id, on)
    return go_to(f"{here.base}/papers/{code}", say="It is put away, and stays readable.")


@router.post("/{code}/use")
def use(session: Writing, here: ThisBuild, code: str) -> Response:
    was = store.get_paper(session, here.build.id, code)
    actions.put_away(session, here.build.id, was.id, None)
    return go_to(f"{here.base}/papers/{code}", say="It holds again.")
