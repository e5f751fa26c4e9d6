"""Who is asking: a dependency for routes. Without a sign-in the answer leads to the sign-in page."""

import hashlib
from typing import Annotated

from fastapi import Depends, Request

from webapp.accounts import store
from webapp.accounts.store import Signed
from webapp.core.dependencies import Reading
from webapp.core.errors import SignInNeeded

COOKIE = "studbay"
SECURE_COOKIE = "__Host-studbay"


def cookie_name(request: Request) -> str:
    """Over https the cookie is bound to this host alone; a browser refuses that prefix over plain http."""
    return SECURE_COOKIE if request.url.scheme == "https" else COOKIE


def hash_token(token: str) -> str:
    return hashlib.sha256(token.encode()).hexdigest()


def signed_in(request: Request, session: Reading) -> Signed:
    token = request.cookies.get(cookie_name(request), "")
    signed = store.find_signed(session, hash_token(token)) if token else None
    if signed is None:
        raise SignInNeeded
    return signed


Builder = Annotated[Signed, Depends(signed_in)]
