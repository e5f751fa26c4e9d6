"""Reading pages as a person would: by headings, links, labels and words."""

import httpx2
from bs4 import BeautifulSoup


def soup(answer: httpx2.Response) -> BeautifulSoup:
    return BeautifulSoup(answer.text, "html.parser")


def words(answer: httpx2.Response, css: str = "main") -> str:
    """All words of the main part (or of `css`), single-spaced."""
    found = soup(answer).select_one(css)
    assert found is not None, f"no {css} on the page"
    return " ".join(found.get_text(" ", strip=True).split())


def headings(answer: httpx2.Response) -> list[str]:
    return [" ".join(tag.get_text(" ", strip=True).split()) for tag in soup(answer).select("h1, h2, h3")]


def links(answer: httpx2.Response, css: str = "main") -> dict[str, str]:
    """Words of each link in `css` to where it leads."""
    return {
        " ".join(tag.get_text(" ", strip=True).split()): str(tag["href"])
        for tag in soup(answer).select(f"{css} a[href]")
    }


def field_errors(answer: httpx2.Response) -> dict[str, str]:
    """Name of each field with an error to its sentence, found the way a screen reader does: aria-describedby."""
    page = soup(answer)
    found = {}
    for tag in page.select("[aria-invalid=true]"):
        told = [page.find(id=part) for part in str(tag.get("aria-describedby", "")).split()]
        found[str(tag["name"])] = " ".join(part.get_text(" ", strip=True) for part in told if part)
    return found
