"""What a copy says of itself in `manifest.json`: every file with its size and SHA-256 (FIPS 180-4), every row count."""

import json
import re
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from typing import Any

from webapp.values.errors import BadInput
from webapp.values.words import plural

FORMAT = 3
MANIFEST, README, RECORD = "manifest.json", "README.txt", "studbay.sqlite3"
PICTURE = re.compile(r"photos/(?:originals/[0-9a-f]{2}/[0-9a-f]{64}|public/[A-Za-z0-9_-]{1,80}\.webp)", re.ASCII)
KEPT = {"papers": "paper", "voice": "voice note"}
"""folders of files kept as they came, beside the pictures, and what one of them is called"""
KEPT_FILE = re.compile(rf"(?:{'|'.join(KEPT)})/originals/[0-9a-f]{{2}}/[0-9a-f]{{64}}", re.ASCII)
SHA256 = re.compile(r"[0-9a-f]{64}", re.ASCII)
NOT_OURS = "This file is no copy made by Studbay, or it did not arrive whole."


@dataclass(frozen=True, slots=True)
class Entry:
    name: str
    size: int
    sha256: str


@dataclass(frozen=True, slots=True)
class Manifest:
    """`whole` copies hold the pictures; the daily ones name in `beside` those that lie in the data folder."""

    format: int
    made_at: str
    tables: str
    """number of the last migration"""
    whole: bool
    rows: Mapping[str, int]
    files: tuple[Entry, ...]
    beside: tuple[str, ...]
    """SHA-256 of originals of pictures"""


def is_known_name(name: str) -> bool:
    """Whether a file of a copy may be written at this place: no other name is ever unpacked."""
    return name in {RECORD, README} or bool(PICTURE.fullmatch(name) or KEPT_FILE.fullmatch(name))


def write_manifest(manifest: Manifest) -> str:
    return json.dumps(asdict(manifest), indent=1, sort_keys=True)


def read_manifest(text: str) -> Manifest:
    """Raises BadInput with a sentence when the text is not a manifest this version can read."""
    try:
        data = json.loads(text)
        number = int(data["format"])
    except (ValueError, KeyError, TypeError):
        raise BadInput(NOT_OURS) from None
    if number > FORMAT:
        raise BadInput("This copy was made by a newer Studbay. Install that version or newer.")
    try:
        return _typed(data)
    except (ValueError, KeyError, TypeError, AttributeError):
        raise BadInput(NOT_OURS) from None


def _typed(data: Mapping[str, Any]) -> Manifest:
    manifest = Manifest(
        int(data["format"]),
        str(data["made_at"]),
        str(data["tables"]),
        bool(data["whole"]),
        {str(name): int(count) for name, count in data["rows"].items()},
        tuple(Entry(str(f["name"]), int(f["size"]), str(f["sha256"])) for f in data["files"]),
        tuple(str(sha) for sha in data["beside"]),
    )
    names = [entry.name for entry in manifest.files]
    sound = all(is_known_name(e.name) and e.size >= 0 and SHA256.fullmatch(e.sha256) for e in manifest.files)
    if not sound or RECORD not in names or len(set(names)) != len(names):
        raise ValueError("names")
    if not all(SHA256.fullmatch(sha) for sha in manifest.beside):
        raise ValueError("beside")
    return manifest


def refuse_other_files(manifest: Manifest, inside: Sequence[str]) -> None:
    """Raises BadInput unless the copy holds exactly the files that its manifest names, each once."""
    wanted = {entry.name for entry in manifest.files} | {MANIFEST}
    missing, more = wanted - set(inside), set(inside) - wanted
    if missing:
        raise BadInput(f"The copy is not whole: {plural(len(missing), 'file')} missing, such as {min(missing)}.")
    if more or len(inside) != len(wanted):
        raise BadInput("The copy holds files that it does not name itself. Nothing was brought back.")


def refuse_other_rows(manifest: Manifest, rows: Mapping[str, int]) -> None:
    """Raises BadInput when the record in the copy has other rows than the manifest counted."""
    if dict(rows) != dict(manifest.rows):
        raise BadInput("The record in this copy has not the rows it was made with. Nothing was brought back.")


def readme(manifest: Manifest) -> str:
    """What is in the copy and how to bring it back, for somebody who finds the file in ten years."""
    pictures = sum(entry.name.startswith("photos/originals/") for entry in manifest.files)
    counted = {what: sum(one.name.startswith(f"{folder}/") for one in manifest.files) for folder, what in KEPT.items()}
    also = "".join(f", {plural(count, what)} as they came" for what, count in counted.items() if count)
    inside = (
        f"{plural(pictures, 'picture')} as taken{also}, the pictures published with episodes, and the record"
        if manifest.whole
        else f"the record; its {plural(len(manifest.beside), 'picture')} lay in the data folder beside it"
    )
    return "\n".join(
        (
            f"A copy of a build kept with Studbay, made {manifest.made_at}.",
            "",
            f"Inside: {inside}.",
            f"The record is {RECORD}, an SQLite 3 file; any SQLite program opens it.",
            "Pictures lie under photos/originals/, each named by the SHA-256 of its bytes.",
            "Papers that came as a PDF lie under papers/originals/, voice notes under voice/originals/, alike.",
            f"{MANIFEST} names every file with its size and SHA-256.",
            "",
            "To bring it back: install Studbay, then type",
            "    studbay restore THIS-FILE.zip --data a-new-folder",
            "    studbay serve --data a-new-folder",
            "",
            "It holds everything private: amounts, places in pictures, the hash of the password. Keep it to yourself.",
            "",
        )
    )
