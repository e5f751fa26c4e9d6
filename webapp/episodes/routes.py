"""Episodes: the series, the draft desk, looking at it as viewers would, publishing, correcting by date.

Every button of the desk sends the whole desk, so that none loses what was typed beside it.
"""

from fastapi import APIRouter, Request
from sqlmodel import Session
from starlette.responses import Response

from webapp.core.dependencies import Config, Reading, Sending, Writing
from webapp.core.forms import BadForm, FormState, Submitted
from webapp.core.rendering import go_to, render, render_kept
from webapp.episodes import actions, forms, pages, store
from webapp.plan.guard import Here, ThisBuild
from webapp.values.errors import RuleBroken
from webapp.workdays.store.people import private_names

router = APIRouter(prefix="/builds/{build}/episodes")


def _home(here: Here, number: int, place: str = "") -> str:
    return f"{here.base}/episodes/{number}{place}"


def _desk(
    request: Request, session: Session, here: Here, number: int, state: FormState | None = None, status: int = 200
) -> Response:
    show_all = request.query_params.get("all") == "1"
    page = pages.desk_page(session, here, number, state, show_all=show_all)
    return render(request, "episodes/desk.html", page, status=status)


def _keep(session: Session, here: Here, number: int, sent: Submitted) -> None:
    """Save the whole desk. Raises BadForm, or RuleBroken once the episode went out."""
    episode = store.get_episode(session, here.build.id, number)
    chosen = [each.photo_id for each in store.list_pictures(session, episode.id)]
    form = forms.read_desk(sent, here.today, chosen)
    actions.keep(session, here.build, number, form.desk)
    for words in form.pictures:
        actions.describe_picture(session, here.build, number, words)


@router.get("")
def episodes(request: Request, session: Reading, here: ThisBuild) -> Response:
    return render_kept(request, session, here, "episodes/list.html", lambda: pages.episodes_page(session, here))


@router.post("")
def begin(request: Request, session: Writing, here: ThisBuild, sent: Sending) -> Response:
    try:
        from_day = forms.read_begin(sent, here.today)
    except BadForm as bad:
        page = pages.episodes_page(session, here, begin=bad.state)
        return render(request, "episodes/list.html", page, status=422)
    number = actions.begin_episode(session, here.build.id, from_day)
    return go_to(_home(here, number), say=f"Episode {number} is begun.")


@router.post("/about")
def introduce(request: Request, session: Writing, here: ThisBuild, sent: Sending) -> Response:
    try:
        words = forms.read_about(sent)
    except BadForm as bad:
        page = pages.episodes_page(session, here, about=bad.state)
        return render(request, "episodes/list.html", page, status=422)
    actions.introduce(session, here.build, words)
    return go_to(f"{here.base}/episodes", say="Viewers read this line from now on.")


@router.get("/{number}")
def episode(request: Request, session: Reading, here: ThisBuild, number: int) -> Response:
    if store.get_episode(session, here.build.id, number).in_the_making:
        return _desk(request, session, here, number)
    return render(request, "episodes/published.html", pages.published_page(session, here, number))


@router.post("/{number}")
def keep(request: Request, session: Writing, here: ThisBuild, sent: Sending, number: int) -> Response:
    try:
        _keep(session, here, number, sent)
    except BadForm as bad:
        return _desk(request, session, here, number, bad.state, 422)
    return go_to(_home(here, number, "#words"), say="Kept.")


@router.post("/{number}/take-over")
def take_over(request: Request, session: Writing, here: ThisBuild, sent: Sending, number: int) -> Response:
    try:
        _keep(session, here, number, sent)
    except BadForm as bad:
        return _desk(request, session, here, number, bad.state, 422)
    sentences = pages.draft_of(session, here.build, number, here.today)
    actions.take_over(session, here.build, number, sentences)
    return go_to(_home(here, number, "#words"), say="The draft is the text now. What stood there before is kept.")


@router.post("/{number}/pictures/{photo_id}")
def choose(request: Request, session: Writing, here: ThisBuild, sent: Sending, number: int, photo_id: int) -> Response:
    try:
        _keep(session, here, number, sent)
    except BadForm as bad:
        return _desk(request, session, here, number, bad.state, 422)
    actions.choose_picture(session, here.build, number, photo_id)
    return go_to(_home(here, number, f"#picture-{photo_id}"))


@router.post("/{number}/pictures/{photo_id}/leave-out")
def leave_out(
    request: Request, session: Writing, here: ThisBuild, sent: Sending, number: int, photo_id: int
) -> Response:
    try:
        _keep(session, here, number, sent)
    except BadForm as bad:
        return _desk(request, session, here, number, bad.state, 422)
    actions.leave_out(session, here.build, number, photo_id)
    return go_to(_home(here, number, "#pictures"), say="Left out. The picture itself stays where it was.")


@router.get("/{number}/as-viewers")
def as_viewers(request: Request, session: Reading, here: ThisBuild, number: int) -> Response:
    return render(request, "episodes/as_viewers.html", pages.as_viewers_page(session, here, number))


@router.post("/{number}/as-viewers")
def keep_and_look(request: Request, session: Writing, here: ThisBuild, sent: Sending, number: int) -> Response:
    try:
        _keep(session, here, number, sent)
    except BadForm as bad:
        return _desk(request, session, here, number, bad.state, 422)
    return go_to(_home(here, number, "/as-viewers"))


@router.post("/{number}/publish")
def publish(
    request: Request, session: Writing, here: ThisBuild, sent: Sending, config: Config, number: int
) -> Response:
    """What was typed is kept also when it may not go out yet: the refusal comes before anything is put up."""
    try:
        _keep(session, here, number, sent)
    except BadForm as bad:
        return _desk(request, session, here, number, bad.state, 422)
    sentences = pages.draft_of(session, here.build, number, here.today)
    try:
        actions.publish(session, config.photos, here.build, number, sentences, here.today)
    except RuleBroken as broken:
        page = pages.desk_page(session, here, number, refused=broken.verdict)
        return render(request, "episodes/desk.html", page, status=409)
    return go_to(_home(here, number), say=f"Episode {number} is out. The next one has begun.")


@router.post("/{number}/corrections")
def correct(request: Request, session: Writing, here: ThisBuild, sent: Sending, number: int) -> Response:
    try:
        words = forms.read_correction(sent, private_names(session, here.build.id))
    except BadForm as bad:
        page = pages.published_page(session, here, number, bad.state)
        return render(request, "episodes/published.html", page, status=422)
    actions.add_correction(session, here.build, number, words, here.today)
    return go_to(_home(here, number), say="The correction stands above the text, and the feed tells of it.")


@router.get("/{number}/texts")
def texts(request: Request, session: Reading, here: ThisBuild, number: int) -> Response:
    return render(request, "episodes/texts.html", pages.texts_page(session, here, number))
