"""What the pages for the phone receive."""

import io
from dataclasses import dataclass

import segno

from webapp.core.sheets import Sheet
from webapp.phone.rules.names import show_fingerprint
from webapp.phone.rules.steps import WAYS, Way, way_for


@dataclass(frozen=True, slots=True)
class Reachable:
    """Where the server is to be found, no slash at the end. `trust` and `digest` are empty without https."""

    addresses: tuple[str, ...] = ()
    trust: str = ""
    digest: bytes = b""


@dataclass(frozen=True, slots=True)
class Code:
    """A QR code (ISO/IEC 18004) as the path of an SVG of `size` modules on each side."""

    path: str
    size: int
    of: str


@dataclass(frozen=True, slots=True)
class PhonePage:
    """G6: the address for the phone, and how safe the one in use is. `secure`: https, or this machine itself."""

    sheet: Sheet
    secure: bool
    local: bool
    code: Code | None
    addresses: tuple[str, ...]
    fingerprint: str


@dataclass(frozen=True, slots=True)
class TrustPage:
    sheet: Sheet
    ways: tuple[Way, ...]
    first: str
    file: str
    address: str
    fingerprint: str


def code_of(text: str) -> Code:
    """The QR code of an address, with error correction M."""
    made = segno.make(text, error="m", micro=False)
    rows = list(made.matrix_iter(scale=1, border=2))
    strokes = [f"M{x} {y}h1v1h-1z" for y, row in enumerate(rows) for x, dark in enumerate(row) if dark]
    return Code("".join(strokes), len(rows), text)


def phone_page(sheet: Sheet, reach: Reachable, secure: bool, local: bool) -> PhonePage:
    way_in = reach.trust or next((each for each in reversed(reach.addresses)), "")
    return PhonePage(
        sheet=sheet,
        secure=secure,
        local=local,
        code=code_of(f"{way_in}/") if way_in else None,
        addresses=reach.addresses,
        fingerprint=show_fingerprint(reach.digest) if reach.digest else "",
    )


def trust_page(sheet: Sheet, reach: Reachable, agent: str) -> TrustPage:
    first = way_for(agent)
    ways = tuple(sorted(WAYS, key=lambda way: way.key != first))
    return TrustPage(
        sheet=sheet,
        ways=ways,
        first=first,
        file="/studbay-authority.crt",
        address=next(iter(reach.addresses[1:] or reach.addresses), ""),
        fingerprint=show_fingerprint(reach.digest),
    )


def way_in(reach: Reachable) -> tuple[str, ...]:
    """What is printed for the phone: a code to point its camera at, the address in it, the fingerprint to compare."""
    drawn = io.StringIO()
    segno.make(f"{reach.trust}/", error="m", micro=False).terminal(drawn, compact=True, border=2)
    return (
        "Each phone has to trust this computer once. Point its camera here, or open the address below:",
        drawn.getvalue().rstrip("\n"),
        f"{reach.trust}/",
        "SHA-256 of the certificate, to be compared on the phone:",
        show_fingerprint(reach.digest),
    )
