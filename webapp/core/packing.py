"""Compressed once, sent many times, with something of its own in each sending.

A body is compressed in pieces that know nothing of each other (RFC 1951, and `Z_FULL_FLUSH` of zlib's manual). Between
two of them a few bytes are put in as they are, a "stored" block (RFC 1951, 3.2.4), and all together is one gzip member
(RFC 1952).
"""

import gzip
import zlib
from collections.abc import Iterator, Sequence
from itertools import zip_longest

LEVEL = 5
"""a page is one part in a hundred larger than at 6, and takes a quarter of the time less"""
HEAD = b"\x1f\x8b\x08\x00\x00\x00\x00\x00\x00\xff"
LAST = b"\x03\x00"
"""an empty block that says it is the last one"""


def pack(parts: Sequence[bytes]) -> tuple[bytes, ...]:
    """Each part compressed apart; one that stands alone as a whole gzip member."""
    if len(parts) == 1:
        return (gzip.compress(parts[0], LEVEL, mtime=0),)
    press = zlib.compressobj(LEVEL, zlib.DEFLATED, -zlib.MAX_WBITS)
    return tuple(press.compress(part) + press.flush(zlib.Z_FULL_FLUSH) for part in parts)


def plain(pieces: Sequence[bytes], between: Sequence[bytes] = ()) -> bytes:
    """The parts themselves, with one of `between` after each but the last."""
    if len(pieces) == 1:
        return gzip.decompress(pieces[0])
    return b"".join(part + own for part, own in zip_longest(_opened(pieces), between, fillvalue=b""))


def join(pieces: Sequence[bytes], between: Sequence[bytes] = ()) -> bytes:
    """As `plain`, but one gzip member; what is put between is at most 65535 bytes long."""
    if len(pieces) == 1:
        return pieces[0]
    check, size, sent = 0, 0, [HEAD]
    for packed, part, own in zip_longest(pieces, _opened(pieces), between, fillvalue=b""):
        check, size = zlib.crc32(own, zlib.crc32(part, check)), size + len(part) + len(own)
        sent += [packed, _stored(own) if own else b""]
    return b"".join([*sent, LAST, check.to_bytes(4, "little"), (size % 2**32).to_bytes(4, "little")])


def _opened(pieces: Sequence[bytes]) -> Iterator[bytes]:
    opening = zlib.decompressobj(-zlib.MAX_WBITS)
    return (opening.decompress(piece) for piece in pieces)


def _stored(own: bytes) -> bytes:
    length = len(own)
    return b"\x00" + length.to_bytes(2, "little") + (length ^ 0xFFFF).to_bytes(2, "little") + own
