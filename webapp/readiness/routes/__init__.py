"""What stops it, what may be covered, the gate, what came past it, and the order."""

from fastapi import APIRouter

from webapp.readiness.routes import gate, mistaken, moving, order

router = APIRouter(prefix="/builds/{build}")
for part in (gate, mistaken, order, moving):
    router.include_router(part.router)
