"""Which surface the builder stands at: the last one that something was sent for, kept by the phone itself."""

from typing import Annotated

from fastapi import Depends, Request
from starlette.responses import Response

COOKIE = "studbay-surface"
A_YEAR = 365 * 24 * 3600


def last_surface(request: Request) -> str:
    """Id of the surface used last, as text; empty for none. It may be of another build, or be gone."""
    return request.cookies.get(COOKIE, "")


def stay_at(answer: Response, surface_id: int | str | None) -> Response:
    """The next form begins at this surface; at none where none was chosen."""
    answer.set_cookie(COOKIE, str(surface_id or ""), max_age=A_YEAR, httponly=True, samesite="lax")
    return answer


LastSurface = Annotated[str, Depends(last_surface)]
