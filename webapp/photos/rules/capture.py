"""When a picture was taken, as its file or its owner says."""

import re
from datetime import datetime

_EXIF = re.compile(r"(\d{4}):(\d\d):(\d\d) (\d\d):(\d\d):(\d\d)", re.ASCII)


def read_capture_time(text: object) -> str | None:
    """ISO text, local to the site, of EXIF's DateTimeOriginal ("2026:05:09 17:48:00"); None when it says nothing.

    Blanks and zeros stand for "unknown" (Exif 2.32, CIPA DC-008-2019, 4.6.5 F). Only DateTimeOriginal is asked:
    DateTime is the day of the last change, DateTimeDigitized of a scanned print the day of scanning.
    """
    if isinstance(text, bytes):
        text = text.decode("ascii", "replace")
    found = _EXIF.fullmatch(text.strip("\0 ")) if isinstance(text, str) else None
    if found is None:
        return None
    try:
        moment = datetime(*(int(part) for part in found.groups()))  # type: ignore[arg-type]  # noqa: DTZ001 (local to the site)
    except ValueError:
        return None
    return moment.isoformat()


def read_taken(text: str) -> str | None:
    """Capture time kept in the record, "2026-05-09T17:48:00", from ISO text; None when it is none."""
    try:
        moment = datetime.fromisoformat(text)
    except ValueError:
        return None
    return moment.replace(tzinfo=None, microsecond=0).isoformat()
