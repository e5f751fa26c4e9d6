"""The calendar behind its secret address: whoever has the address may read it, without a sign-in."""

from fastapi import APIRouter, Request
from starlette.responses import PlainTextResponse, Response

from webapp.core.dependencies import Reading, Today, get_database
from webapp.inspections import pages, store

router = APIRouter()
PRIVATE = {
    "Cache-Control": "private, no-store",
    "Referrer-Policy": "no-referrer",
    "X-Robots-Tag": "noindex, nofollow",
}


@router.get("/calendar/{secret}.ics")
def calendar_feed(request: Request, session: Reading, today: Today, secret: str) -> Response:
    """404 for an address that never was, 410 for one that was ended: its reader may stop asking."""
    key = store.find_key(session, secret)
    if key is None:
        return PlainTextResponse("There is no such calendar here.", status_code=404, headers=PRIVATE)
    if key.ended_at is not None:
        return PlainTextResponse("This address was ended. Ask for the new one.", status_code=410, headers=PRIVATE)
    body = pages.calendar_of(session, key.build_id, today, get_database(request).changed_at)
    return Response(body, media_type="text/calendar; charset=utf-8", headers=PRIVATE)
