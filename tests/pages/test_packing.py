"""Pages are compressed once, and each sending has its own ids in between: read back with the standard gzip."""

import gzip
import zlib

from hypothesis import given
from hypothesis import strategies as st

from webapp.core import packing
from webapp.core.packing import pack

PARTS = st.lists(st.binary(max_size=400), min_size=1, max_size=5)
OWN = st.binary(max_size=60)


@given(PARTS, st.lists(OWN, min_size=5, max_size=5))
def test_what_is_put_together_is_one_gzip_file_of_all_parts_with_their_own_between(parts, own):
    own = own[: len(parts) - 1]
    whole = parts[0] + b"".join(mine + part for mine, part in zip(own, parts[1:], strict=True))
    packed = packing.join(pack(parts), own)
    assert gzip.decompress(packed) == whole == packing.plain(pack(parts), own)
    reader = zlib.decompressobj(wbits=16 + zlib.MAX_WBITS)
    assert (reader.decompress(packed), reader.eof, reader.unused_data) == (whole, True, b""), "one member, no more"


def test_pieces_are_packed_once_and_filled_many_times():
    pieces = pack((b"before" * 900, b"after" * 900))
    first, second = (gzip.decompress(packing.join(pieces, (own,))) for own in (b"one", b"two"))
    assert (first.replace(b"one", b"two"), first == second) == (second, False)
    assert len(packing.join(pieces, (b"one",))) < 200
