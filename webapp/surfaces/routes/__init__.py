"""Pages of surfaces, what is hidden in them, questions and pictures."""

from fastapi import APIRouter

from webapp.surfaces.routes import belonging, drawn, items, lines, pictures, questions, surfaces

router = APIRouter(prefix="/builds/{build}")
for part in (surfaces, items, drawn, questions, pictures, belonging, lines):
    router.include_router(part.router)
