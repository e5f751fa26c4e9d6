"""Sounds for tests: a tone made here, and the beginnings of other kinds as their standards say."""

import io
import math
import struct
import wave

RATE = 8000


def a_wav(seconds: float = 2, pitch: int = 440) -> bytes:
    out = io.BytesIO()
    with wave.open(out, "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(RATE)
        count = int(seconds * RATE)
        file.writeframes(
            b"".join(struct.pack("<h", int(9000 * math.sin(2 * math.pi * pitch * n / RATE))) for n in range(count))
        )
    return out.getvalue()


def a_webm(codec: bytes = b"A_OPUS") -> bytes:
    """EBML header with its doc type, then a track entry that names its codec (RFC 9559)."""
    return (
        b"\x1aE\xdf\xa3\x9fB\x86\x81\x01B\xf7\x81\x01B\x82\x84webm" + b"\x16T\xaek" + b"\x86\x86" + codec + bytes(600)
    )


def an_ogg(first: bytes = b"OpusHead") -> bytes:
    return b"OggS\0\x02" + bytes(20) + b"\x01\x13" + first + bytes(600)


def _box(kind: bytes, body: bytes) -> bytes:
    return struct.pack(">I", len(body) + 8) + kind + body


def an_mp4(*handlers: bytes, last: bool = False) -> bytes:
    """File type, then the tracks with their handlers: before the sound itself, or after it as many phones write."""
    tracks = b"".join(_box(b"hdlr", bytes(8) + handler + bytes(12)) for handler in handlers)
    movie, sound = _box(b"moov", tracks), _box(b"mdat", bytes(100_000))
    return _box(b"ftyp", b"M4A \0\0\0\0") + (sound + movie if last else movie + sound)
