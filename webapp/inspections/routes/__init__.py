"""Pages of permits, inspections, visits, results, corrections and fees."""

from fastapi import APIRouter

from webapp.inspections.routes import (
    advice,
    calendar,
    changes,
    corrections,
    extensions,
    hired,
    inspections,
    offices,
    packet,
    permits,
    preparing,
    results,
    starting,
    told,
    visits,
)

router = APIRouter(prefix="/builds/{build}")
lists = (permits, extensions, offices, calendar, starting, preparing)
for part in (*lists, inspections, visits, results, corrections, changes, advice, told, hired, packet):
    router.include_router(part.router)
