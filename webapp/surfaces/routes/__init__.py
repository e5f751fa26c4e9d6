"""Pages of surfaces, what is hidden in them, questions and pictures."""

from fastapi import APIRouter

from webapp.surfaces.routes import belonging, drawn, items, lines, picture, pictures, questions, shoot, slots, surfaces

router = APIRouter(prefix="/builds/{build}")
for part in (surfaces, items, slots, shoot, drawn, questions, pictures, picture, belonging, lines):
    router.include_router(part.router)
