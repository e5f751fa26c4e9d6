"""Pages of surfaces, what is hidden in them, questions and pictures."""

from fastapi import APIRouter

from webapp.surfaces.routes import belonging, items, pictures, questions, surfaces

router = APIRouter(prefix="/builds/{build}")
for part in (surfaces, items, questions, pictures, belonging):
    router.include_router(part.router)
