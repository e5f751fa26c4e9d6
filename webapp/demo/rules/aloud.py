"""What the builder of the scenario said aloud with dirty hands; the sounds are made up, as the pictures are."""

import math
from dataclasses import dataclass
from datetime import time
from random import Random

RATE = 8000
"""samples a second: enough for speech, and small"""
_SYLLABLE = 0.19
"""seconds"""


@dataclass(frozen=True)
class Spoken:
    """A note by the offset of its day, of a surface, a workday or a visit by the scenario's names, or of nothing."""

    day: int
    at: time
    seconds: int
    words: str = ""
    surface: str = ""
    workday: str = ""
    visit: str = ""


SPOKEN = (
    Spoken(-44, time(16, 12), 7, "He wants to see the plates from the ladder side next time.", visit="V15"),
    Spoken(-7, time(15, 40), 6, "Caulk: the grey one, not the white one. Two tubes left.", workday="D007"),
    Spoken(-7, time(16, 5), 5, surface="E"),
    Spoken(-2, time(21, 20), 4),
)
"""the last two are not written down yet, the last is nowhere yet"""


def murmur(seconds: int, seed: int) -> bytes:
    """Unsigned 8-bit samples of a murmur behind a door: a voice's pitch and two of its tones, by syllables."""
    random = Random(seed)
    made = bytearray()
    while len(made) < seconds * RATE:
        pitch, low, high = random.uniform(95, 130), random.uniform(300, 700), random.uniform(900, 1800)
        count, loud = int(RATE * random.uniform(0.7, 1.6) * _SYLLABLE), random.choice((0.0, 0.6, 0.8, 1.0))
        for number in range(count):
            swell, turn = math.sin(math.pi * number / count), 2 * math.pi * number / RATE
            voice = 0.5 + 0.5 * math.sin(pitch * turn)
            wave = voice * (0.6 * math.sin(low * turn) + 0.3 * math.sin(high * turn))
            made.append(128 + int(90 * loud * swell * wave))
    return bytes(made[: seconds * RATE])
