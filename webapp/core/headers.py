"""Headers on every answer, and the check of who may ask: plain ASGI, so that nothing is buffered."""

import ipaddress
from collections.abc import Iterable
from urllib.parse import urlsplit

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; "
    "media-src 'self' blob:; connect-src 'self'; font-src 'self'; manifest-src 'self'; worker-src 'self'; "
    "form-action 'self'; base-uri 'none'; "
    "frame-ancestors 'none'"
)
ALWAYS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    # Not `no-referrer`: that turns the Origin of our own forms into `null`, which the origin check must refuse.
    "Referrer-Policy": "same-origin",
    "Permissions-Policy": "geolocation=(), camera=(self), microphone=(self)",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
}
SAFE = {"GET", "HEAD", "OPTIONS"}


class SecurityHeaders:
    """Puts the strict policy on every answer, and the version of the files it goes with."""

    def __init__(self, app: ASGIApp, version: str) -> None:
        self.app = app
        self.always = {**ALWAYS, "Studbay-Version": version}

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return

        async def with_headers(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                for name, value in self.always.items():
                    headers.setdefault(name, value)
            await send(message)

        await self.app(scope, receive, with_headers)


class HeadsOnly:
    """Answers HEAD as GET would be answered, without the body (RFC 9110, 9.3.2): the routes know GET alone."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http" or scope["method"] != "HEAD":
            await self.app(scope, receive, send)
            return

        async def heads(message: Message) -> None:
            if message["type"] == "http.response.start":
                await send(message)
                await send({"type": "http.response.body", "body": b""})

        # A file is then named to `heads` instead of being read: a whole copy can be many gigabytes.
        extensions = {**scope.get("extensions", {}), "http.response.pathsend": {}}
        await self.app({**scope, "method": "GET", "extensions": extensions}, receive, heads)


def is_address(host: str) -> bool:
    """Whether a host is a plain IP address: such a name cannot be pointed elsewhere by someone's name server."""
    try:
        ipaddress.ip_address(host.strip("[]"))
    except ValueError:
        return False
    return True


def host_name(value: str) -> str:
    """Host without port, lower case: `[::1]:8730` gives `::1`."""
    return (urlsplit(f"//{value}").hostname or "").lower()


class KnownHost:
    """Refuses names that are not ours: a foreign page must not reach a server at home by its own name."""

    def __init__(self, app: ASGIApp, names: Iterable[str]) -> None:
        self.app = app
        self.names = frozenset(names) | {"localhost"}

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] == "http":
            host = host_name(Headers(scope=scope).get("host", ""))
            if not (host in self.names or is_address(host)):
                answer = PlainTextResponse(
                    "This name is not known here. Add it to STUDBAY_HOSTS if it is yours.", status_code=421
                )
                await answer(scope, receive, send)
                return
        await self.app(scope, receive, send)


def same_origin(method: str, headers: Headers) -> bool:
    """Whether an unsafe request comes from our own pages: Fetch metadata, else Origin against Host."""
    if method in SAFE:
        return True
    site = headers.get("sec-fetch-site")
    if site is not None:
        return site in {"same-origin", "none"}
    origin = headers.get("origin")
    if origin is None or origin == "null":
        return False
    return urlsplit(origin).netloc.lower() == headers.get("host", "").lower()


class SameOrigin:
    """Refuses unsafe requests that another site sent with the owner's cookie."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] == "http" and not same_origin(scope["method"], Headers(scope=scope)):
            answer = PlainTextResponse(
                "This did not come from a page of Studbay, so nothing was changed. Open the page here, send it again.",
                status_code=403,
            )
            await answer(scope, receive, send)
            return
        await self.app(scope, receive, send)
