"""Pages of permits, inspections, visits, results, corrections and fees."""

from fastapi import APIRouter

from webapp.inspections.routes import (
    advice,
    calendar,
    changes,
    corrections,
    extensions,
    inspections,
    offices,
    permits,
    preparing,
    results,
    starting,
    told,
    visits,
)

router = APIRouter(prefix="/builds/{build}")
lists = (permits, extensions, offices, calendar, starting, preparing)
for part in (*lists, inspections, visits, results, corrections, changes, advice, told):
    router.include_router(part.router)
