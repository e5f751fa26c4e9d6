"""What stops it, what may be covered, the gate, and what came past it."""

from fastapi import APIRouter

from webapp.readiness.routes import gate, mistaken

router = APIRouter(prefix="/builds/{build}")
for part in (gate, mistaken):
    router.include_router(part.router)
