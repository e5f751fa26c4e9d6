"""The title block: each page is a sheet with a number, a name, a date and its last change."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class SheetLink:
    """One line of the list of sheets."""

    number: str
    name: str
    href: str
    current: bool = False


@dataclass(frozen=True, slots=True)
class Frame:
    """What a sheet outside any build says of the build to go back to; all empty while there is none."""

    build: str = ""
    base: str = ""
    sheets: tuple[SheetLink, ...] = ()


@dataclass(frozen=True, slots=True)
class Sheet:
    """What the shells need to draw a page's frame; every `page` has one as `page.sheet`."""

    number: str
    """as on drawings: G1, W2-E"""
    name: str
    title: str
    build: str = ""
    base: str = ""
    """path of the build, "/builds/bindery", or empty"""
    date: str = ""
    day: str = ""
    """the same day as 2026-05-16: a phone that shows the page later can tell"""
    last_change: str = ""
    changed: str = ""
    """the moment of that change (ISO 8601): what a phone knew when it drew the page"""
    look: str = ""
    """"" (as the phone), light, dark or sun"""
    sheets: tuple[SheetLink, ...] = ()
    key: str = ""
    """what is drawn heavy in the key plan: the wall N, E, S or W, the room, or nothing"""
    said: tuple[str, ...] = ()
    """sentences said once, after a redirect"""
    here: str = ""
    """this page's own path"""
