"""What the forms of voice notes send."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from pathlib import Path

from webapp.core.forms import Reader, Submitted, Upload
from webapp.voice.actions import sound_of
from webapp.voice.files import KeptSound
from webapp.voice.rules.places import Spot

NOTHING = "Record something first, or choose a sound from this phone."
A_DAY = 24 * 3600
AHEAD = timedelta(minutes=10)
"""by which a phone's clock may be before the server's"""
_MOMENT = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d", re.ASCII)


@dataclass(frozen=True, slots=True)
class NoteDraft:
    """A note as it was sent. `said_at`: when it was recorded, as the phone wrote; None for a file from elsewhere."""

    sound: KeptSound
    said_at: str | None
    words: str
    spot: Spot | None


def read_note(
    sent: Submitted, spots: Mapping[str, Spot], keep: Callable[[Upload], str], voice: Path, local_now: datetime
) -> NoteDraft:
    """A note. Raises BadForm; a sent sound is kept anyway, so that no word has to be said again."""
    read = Reader(sent)
    sound = sound_of(read.kept("sound", keep), voice)
    words, spot = read.text("words"), spots.get(read.one_of("about", tuple(spots)))
    if sound is None:
        read.wrong("sound", NOTHING)
    read.done()
    if sound is None:
        raise ValueError("without a sound the form has an error")
    if sound.seconds is None:
        sound = replace(sound, seconds=_seconds(sent.text("seconds")))
    return NoteDraft(sound, _said_at(sent.text("said_at"), local_now), words, spot)


def _seconds(text: str) -> int | None:
    """As the page counted while it recorded: good for showing, proves nothing."""
    return int(text) if text.isdecimal() and len(text) < 6 and 0 < int(text) <= A_DAY else None


def _said_at(text: str, local_now: datetime) -> str | None:
    """The moment a recording began; unknown where the phone's clock says something that cannot be."""
    if not _MOMENT.fullmatch(text):
        return None
    try:
        moment = datetime.fromisoformat(text)
    except ValueError:
        return None
    return text if moment <= local_now.replace(tzinfo=None) + AHEAD else None


def read_words(sent: Submitted) -> str:
    """The words of a note; empty takes them out again. Raises BadForm."""
    read = Reader(sent)
    words = read.text("words")
    read.done()
    return words


def read_spot(sent: Submitted, spots: Mapping[str, Spot]) -> Spot | None:
    """Where a note belongs; None for nowhere yet. Raises BadForm."""
    read = Reader(sent)
    key = read.one_of("about", tuple(spots))
    read.done()
    return spots.get(key)
