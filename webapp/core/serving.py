"""From a data folder to a running server and back: nothing here knows which pages are served."""

import gc
import ipaddress
import signal
import socket
import sqlite3
import threading
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from pathlib import Path
from types import FrameType

import uvicorn
from starlette.types import ASGIApp

from webapp.core import migrating
from webapp.core.database import Database
from webapp.core.settings import Settings
from webapp.values.errors import BadInput

HALF_RESTORED = "restoring-*"
"""name of the folder a restore works in; it is there only while one runs, or after one that was cut off"""


def open_record(settings: Settings) -> Database:
    """The record in the data folder, made or brought up to this version's tables (after a copy), and looked over.

    Raises BadInput or MigrationFailed with a sentence; whoever calls holds the folder's lock.
    """
    if any(settings.data.glob(HALF_RESTORED)):
        raise BadInput(f"A restore into {settings.data} was cut off. Run it again: studbay restore FILE --replace")
    settings.photos.mkdir(parents=True, exist_ok=True)
    settings.backups.mkdir(parents=True, exist_ok=True)
    refuse_broken(settings)
    migrating.upgrade(settings.database, settings.backups)
    return Database(settings.database)


def refuse_broken(settings: Settings) -> None:
    """Raises BadInput when the file is no sound record: better no start than a wall closed on half the facts."""
    if not settings.database.exists():
        return
    try:
        with closing(sqlite3.connect(settings.database)) as connection:
            found = connection.execute("PRAGMA quick_check(5)").fetchall()
    except sqlite3.DatabaseError as error:
        found = [(str(error),)]
    if found != [("ok",)]:
        newest = max(settings.backups.glob("*.zip"), key=lambda copy: copy.stat().st_mtime, default=None)
        way = f"studbay restore {newest} --replace" if newest else "studbay restore FILE --replace"
        raise BadInput(
            f"The record {settings.database} is damaged ({found[0][0]}). Nothing was changed. Bring the newest copy "
            f"back with: {way}"
        )


def fold_log(database: Database) -> None:
    """Fold the write-ahead log into the file, so that the file alone is the whole record."""
    with database.still(), closing(sqlite3.connect(database.file, isolation_level=None)) as connection:
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")


def listen(settings: Settings) -> socket.socket:
    """A listening socket; port 0 takes a free one. Raises BadInput with a sentence when the port is taken."""
    family = socket.AF_INET6 if ":" in settings.host else socket.AF_INET
    opened = socket.socket(family, socket.SOCK_STREAM)
    opened.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        opened.bind((settings.host, settings.port))
        opened.listen(64)
    except OSError as error:
        opened.close()
        raise BadInput(
            f"Port {settings.port} on {settings.host} cannot be used ({error.strerror or error}). Another program may "
            "have it: take another with --port, or any free one with --port 0."
        ) from None
    return opened


def addresses(settings: Settings, port: int, scheme: str = "http") -> tuple[str, ...]:
    """Where a browser finds the server, this machine's own address first; no slash at the end."""
    if settings.host == "0.0.0.0":  # noqa: S104 (asked for by the owner)
        hosts = ["127.0.0.1", *filter(None, [address_in_the_house()])]
    elif settings.host == "::":
        hosts = ["[::1]"]
    else:
        hosts = [f"[{settings.host}]" if ":" in settings.host else settings.host]
    return tuple(f"{scheme}://{host}:{port}" for host in hosts)


def address_in_the_house() -> str:
    """This machine's address on its network, or empty. Nothing is sent: UDP only looks up the way."""
    with suppress(OSError), socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asked:
        asked.connect(("192.0.2.1", 9))
        found = str(asked.getsockname()[0])
        return "" if ipaddress.ip_address(found).is_loopback else found
    return ""


@contextmanager
def ends_softly() -> Iterator[threading.Event]:
    """Ctrl-C and SIGTERM end the block and nothing more, so that the caller can close the record cleanly.

    Begins before an address is printed: whoever reads it may stop us at once. The event says that we were: what a
    signal raises while rubbish is collected is lost.
    """
    asked = threading.Event()

    def stop(_number: int, _frame: FrameType | None) -> None:
        asked.set()
        raise KeyboardInterrupt

    # SIGINT too: a process started in the background by a script is born ignoring it.
    before = {number: signal.signal(number, stop) for number in (signal.SIGTERM, signal.SIGINT)}
    try:
        with suppress(KeyboardInterrupt):
            yield asked
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)


@contextmanager
def answering_beside(app: ASGIApp, opened: socket.socket) -> Iterator[None]:
    """A second, small server while the block runs, in a thread of its own."""
    server = uvicorn.Server(uvicorn.Config(app, log_level="warning", access_log=False, server_header=False))
    thread = threading.Thread(target=server.run, kwargs={"sockets": [opened]}, daemon=True)
    thread.start()
    try:
        yield
    finally:
        server.should_exit = True
        thread.join(timeout=10)


def serve(
    app: ASGIApp,
    opened: socket.socket,
    settings: Settings,
    asked: threading.Event,
    keys: tuple[Path, Path] | None = None,
) -> None:
    """Answer until a signal; uvicorn lets open answers end and then raises the signal again.

    `asked`: set when we were to stop already. `keys`: files of certificate and key; with them https is spoken.
    """
    certificate, key = keys or (None, None)
    config = uvicorn.Config(
        app,
        ssl_certfile=certificate,
        ssl_keyfile=key,
        log_level="warning",
        access_log=False,
        server_header=False,
        proxy_headers=bool(settings.proxy),
        forwarded_allow_ips=settings.proxy or None,
        timeout_keep_alive=15,
        timeout_graceful_shutdown=5,
        lifespan="on",
    )
    gc.collect()
    gc.freeze()  # what is loaded by now stays: searching it for rubbish again and again only takes time
    if not asked.is_set():
        uvicorn.Server(config).run(sockets=[opened])
