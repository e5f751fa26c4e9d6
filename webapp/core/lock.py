"""One server at a time on a data folder: a lock that the system lets go by itself when the process ends."""

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import IO

from webapp.values.errors import BadInput

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl

NAME = "studbay.lock"
FAR = 1 << 30
"""Where the byte lies that is locked on Windows: locked bytes cannot be read, the number before it can."""


def _lock(file: IO[str]) -> None:
    """Raises OSError when another process holds the lock."""
    if sys.platform == "win32":
        file.seek(FAR)
        msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
    else:
        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)


@contextmanager
def held(folder: Path) -> Iterator[None]:
    """Hold `folder` while the block runs. Raises BadInput with a sentence when a running Studbay holds it."""
    folder.mkdir(parents=True, exist_ok=True)
    with (folder / NAME).open("a+", encoding="ascii") as file:
        try:
            _lock(file)
        except OSError:
            file.seek(0)
            number = file.read(20).strip()
            who = f" (process {number})" if number.isdecimal() else ""
            raise BadInput(
                f"A Studbay is running on the folder {folder} already{who}. Stop it first, or name another folder "
                "with --data."
            ) from None
        file.truncate(0)
        file.write(f"{os.getpid()}\n")
        file.flush()
        try:
            yield
        finally:
            with suppress(OSError):
                file.truncate(0)
