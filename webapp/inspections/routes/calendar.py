"""The page of the calendar, its secret address, and the calendar as a file."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.core.dependencies import Reading, Writing, get_database
from webapp.core.rendering import go_to, render
from webapp.inspections import actions, pages
from webapp.plan.guard import ThisBuild

router = APIRouter()


@router.get("/calendar")
def calendar(request: Request, session: Reading, here: ThisBuild) -> Response:
    return render(request, "inspections/calendar.html", pages.calendar_page(session, here, str(request.base_url)))


@router.get("/calendar.ics")
def calendar_file(request: Request, session: Reading, here: ThisBuild) -> Response:
    body = pages.calendar_of(session, here.build.id, here.today, get_database(request).changed_at)
    headers = {
        "Content-Disposition": f'attachment; filename="{here.build.slug}.ics"',
        "Cache-Control": "private, no-store",
    }
    return Response(body, media_type="text/calendar; charset=utf-8", headers=headers)


@router.post("/calendar/key")
def make_key(session: Writing, here: ThisBuild) -> Response:
    actions.make_calendar_key(session, here.build.id)
    return go_to(f"{here.base}/calendar", say="Here is the address. One that was there before answers no more.")


@router.post("/calendar/end")
def end_key(session: Writing, here: ThisBuild) -> Response:
    actions.end_calendar_keys(session, here.build.id)
    return go_to(f"{here.base}/calendar", say="The address answers no more.")
