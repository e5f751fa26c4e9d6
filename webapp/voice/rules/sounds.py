"""Telling a sound by its own bytes, so that a name or a header sent along is never believed.

EBML and Matroska: RFC 8794, RFC 9559; Ogg: RFC 3533, RFC 7845 (Opus); MP4: ISO/IEC 14496-12; ADTS: ISO/IEC 14496-3;
MP3: ISO/IEC 11172-3; WAVE: "Multimedia Programming Interface and Data Specifications 1.0".
"""

HEAD = 64 * 1024
"""bytes in which a recording names its tracks, from the beginning"""
TAIL = 512 * 1024
"""and from its end, where recorders of phones write it"""
TAKEN_IN = "WebM, Ogg, M4A or MP4, AAC, MP3 and WAV are taken in."
_FILM_CODECS = (b"V_VP8", b"V_VP9", b"V_AV1", b"V_MPEG", b"V_MS/VFW", b"V_THEORA")
_OGG_SOUNDS = (b"OpusHead", b"\x01vorbis", b"Speex   ", b"\x7fFLAC")
_PICTURES = (b"\xff\xd8\xff", b"\x89PNG", b"GIF8")


def media_type_of(head: bytes, tail: bytes) -> str:
    """`audio/webm` and so on; empty for what is no sound, or a film. `tail`: the end of a longer file."""
    if head.startswith(b"\x1aE\xdf\xa3"):
        return "audio/webm" if b"A_" in head and not is_film(head, tail) else ""
    if head.startswith(b"OggS"):
        return "audio/ogg" if any(sound in head for sound in _OGG_SOUNDS) and not is_film(head, tail) else ""
    if head[4:8] == b"ftyp":
        return "audio/mp4" if b"soun" in head + tail and not is_film(head, tail) else ""
    if head.startswith(b"RIFF") and head[8:12] == b"WAVE":
        return "audio/wav"
    if head.startswith(b"ID3"):
        return "audio/mpeg"
    return _by_frame(head[:2])


def _by_frame(sync: bytes) -> str:
    """A stream without a container begins with a frame: eleven or twelve ones, then the layer."""
    if len(sync) < 2 or sync[0] != 0xFF:
        return ""
    if sync[1] & 0xF6 == 0xF0:
        return "audio/aac"
    return "audio/mpeg" if sync[1] & 0xE6 == 0xE2 else ""


def is_film(head: bytes, tail: bytes) -> bool:
    """Whether it has moving pictures too: then it is no note, and belongs among the footage."""
    if head.startswith(b"\x1aE\xdf\xa3"):
        return any(codec in head for codec in _FILM_CODECS)
    if head.startswith(b"OggS"):
        return b"\x80theora" in head
    return head[4:8] == b"ftyp" and b"vide" in head + tail


def refusal(name: str, head: bytes, tail: bytes) -> str:
    """The sentence for a file that is no sound we keep."""
    if is_film(head, tail):
        return f"“{name}” is a film. Note under Footage where it lies; here {TAKEN_IN}"
    if head.startswith(_PICTURES):
        return f"“{name}” is a picture. Send it under Pictures; here {TAKEN_IN}"
    return f"“{name}” is not a sound that can be kept. {TAKEN_IN}"


def wav_seconds(head: bytes, size: int) -> int | None:
    """Whole seconds of a WAVE file, from the bytes a second that its header names; None where it names none."""
    at = head.find(b"fmt ")
    rate = int.from_bytes(head[at + 16 : at + 20], "little") if at > 0 else 0
    return max(1, (size - len(b"RIFF....WAVE")) // rate) if rate else None
