"""Pages of surfaces, what is hidden in them, questions and pictures."""

from fastapi import APIRouter

from webapp.surfaces.routes import (
    behind,
    belonging,
    drawn,
    items,
    lines,
    picture,
    pictures,
    placing,
    questions,
    reading_off,
    shoot,
    slots,
    surfaces,
    ties,
    together,
)

router = APIRouter(prefix="/builds/{build}")
for part in (
    behind,
    surfaces,
    items,
    placing,
    drawn,
    questions,
    pictures,
    together,
    belonging,
    lines,
    slots,
    shoot,
    picture,
    reading_off,
    ties,
):
    router.include_router(part.router)
