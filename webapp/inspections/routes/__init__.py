"""Pages of permits, inspections, visits, results, corrections and fees."""

from fastapi import APIRouter

from webapp.inspections.routes import (
    calendar,
    changes,
    corrections,
    extensions,
    hired,
    inspections,
    offices,
    packet,
    permits,
    results,
    visits,
)

router = APIRouter(prefix="/builds/{build}")
for part in (permits, extensions, offices, calendar, inspections, visits, results, corrections, changes, hired, packet):
    router.include_router(part.router)
