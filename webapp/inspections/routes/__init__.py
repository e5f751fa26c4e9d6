"""Pages of permits, inspections, visits, results, corrections and fees."""

from fastapi import APIRouter

from webapp.inspections.routes import changes, corrections, hired, inspections, packet, permits, results, visits

router = APIRouter(prefix="/builds/{build}")
for part in (permits, inspections, visits, results, corrections, changes, hired, packet):
    router.include_router(part.router)
