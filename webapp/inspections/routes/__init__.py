"""Pages of permits, inspections, visits, results, corrections and fees."""

from fastapi import APIRouter

from webapp.inspections.routes import changes, corrections, inspections, permits, preparing, results, starting, visits

router = APIRouter(prefix="/builds/{build}")
for part in (permits, starting, preparing, inspections, visits, results, corrections, changes):
    router.include_router(part.router)
