"""The demo's picture files, painted by several processes: one alone takes longer than anybody waits."""

import hashlib
import os
import sys
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date, datetime, time
from functools import cache, partial
from multiprocessing import get_context
from pathlib import Path

from webapp.demo.files.packaged import read_packaged
from webapp.demo.files.painter import CameraTags, paint
from webapp.demo.files.pictures import picture_file
from webapp.demo.rules.content import Content, read_content
from webapp.demo.rules.scenes import paper_scene, receipt_scene
from webapp.photos.files import Encoded, Looked, encode, look_at
from webapp.photos.rules.names import original_name

MOST_HANDS = 4
AT_THE_BENCH = time(19, 30)
"""when a paper or a receipt was laid down and photographed"""


@dataclass(frozen=True, slots=True)
class Painted:
    """One file that lies among the originals, what its header says, and its copies for the public by longest side."""

    name: str
    sha256: str
    size: int
    looked: Looked
    public: dict[int, Encoded]


@cache
def _scenario(saturday: date) -> Content:
    return read_content(read_packaged(), saturday, date.isoformat)


def _bench_tags(day: date) -> CameraTags:
    return CameraTags(taken=datetime.combine(day, AT_THE_BENCH), with_place=False)


def file_of(name: str, content: Content) -> bytes:
    """The file of a picture (P001), of a paper (PA01) or of a receipt (RC01), as the phone would have sent it."""
    if name.startswith("PA"):
        paper = next(row for row in content.papers if row.id == name)
        return paint(paper_scene(paper), _bench_tags(paper.day))
    if name.startswith("RC"):
        receipt = next(row for row in content.receipts if row.id == name)
        return paint(receipt_scene(receipt), _bench_tags(receipt.day))
    return picture_file(next(row for row in content.pictures if row.id == name), content)


def paint_named(saturday: date, photos: Path, public: frozenset[str], name: str) -> Painted:
    """Paint one file and lay it among the originals, named by its bytes as every picture is.

    Not made durable one by one as a sent picture is: should the power go now, the demo is simply made again.
    """
    original = file_of(name, _scenario(saturday))
    sha256 = hashlib.sha256(original).hexdigest()
    path = photos / original_name(sha256)
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(original)
    return Painted(name, sha256, len(original), look_at(path, name), encode(original, name) if name in public else {})


@contextmanager
def painting(saturday: date, photos: Path, names: list[str], public: frozenset[str]) -> Iterator[Iterator[Painted]]:
    """Begin to paint at once; gives the files in the order of `names` as they get ready."""
    # Forked, a painter starts with everything loaded; spawned, it would first import the whole program again.
    start = get_context("fork" if sys.platform == "linux" else None)
    with ProcessPoolExecutor(min(MOST_HANDS, os.cpu_count() or 1), mp_context=start) as hands:
        yield hands.map(partial(paint_named, saturday, photos, public), names, chunksize=6)
