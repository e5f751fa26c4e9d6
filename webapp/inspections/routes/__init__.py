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
    results,
    told,
    visits,
)

router = APIRouter(prefix="/builds/{build}")
for part in (
    permits,
    extensions,
    offices,
    calendar,
    inspections,
    visits,
    results,
    corrections,
    changes,
    advice,
    told,
    hired,
    packet,
):
    router.include_router(part.router)
