"""Pages of permits, inspections, visits, results, corrections and fees."""

from fastapi import APIRouter

from webapp.inspections.routes import (
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
    visits,
)

router = APIRouter(prefix="/builds/{build}")
for part in (
    permits,
    extensions,
    offices,
    calendar,
    starting,
    preparing,
    inspections,
    visits,
    results,
    corrections,
    changes,
):
    router.include_router(part.router)
