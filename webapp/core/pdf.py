"""PDF from a page's own HTML, where the optional library for it is installed (`pip install studbay[pdf]`).

It is only loaded when a PDF is asked for: with its fonts it weighs more than everything else together. Whatever a page
names is opened by `blob` alone: nothing a builder typed can make this machine fetch an address or read a file.
"""

import importlib
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from types import ModuleType
from typing import Any


@dataclass(frozen=True, slots=True)
class Blob:
    """Bytes that may stand in a PDF."""

    body: bytes
    media_type: str


def pdf_library() -> ModuleType | None:
    """The library, or None where it or what it stands on (Pango) is not installed."""
    try:
        return importlib.import_module("weasyprint")
    except (ImportError, OSError):
        return None


def make_pdf(library: ModuleType, html: str, styles: Sequence[str], blob: Callable[[str], Blob | None]) -> bytes:
    """The PDF, tagged for readers that speak (PDF/UA-1, ISO 14289-1). `blob` gives what an address stands for."""
    urls: Any = importlib.import_module("weasyprint.urls")

    def fetch(_self: object, url: str, _headers: object = None) -> object:
        found = blob(url)
        if found is None:
            raise ValueError("Only what the page was made of is opened.")
        return urls.URLFetcherResponse(url, found.body, {"Content-Type": found.media_type})

    fetcher = type("OwnBlobs", (urls.URLFetcher,), {"fetch": fetch, "__call__": fetch})()
    document = library.HTML(string=html, base_url="studbay:/", url_fetcher=fetcher)
    sheets = [library.CSS(string=style, url_fetcher=fetcher) for style in styles]
    made: bytes = document.write_pdf(stylesheets=sheets, pdf_variant="pdf/ua-1")
    return made
