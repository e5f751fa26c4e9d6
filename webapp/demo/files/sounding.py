"""The demo's voice notes as files, in the plainest form there is."""

import io
import wave

from webapp.demo.rules.aloud import RATE, Spoken, murmur


def sound_of(spoken: Spoken) -> io.BytesIO:
    """A WAVE file of one channel and 8 bits."""
    out = io.BytesIO()
    with wave.open(out, "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(1)
        file.setframerate(RATE)
        file.writeframes(murmur(spoken.seconds, spoken.at.minute))
    out.seek(0)
    return out
