"""Prints each page's p95 as a ratio to a bare page of the same server in the same run.

    python -m tests.benchmarks.run [--tasks 5000 --needs 8000 --photos 20000 --spend 10000]

The drawing of a full wall stands below: drawn anew each time after a write of a thing on it, and kept.

Median of three interleaved runs at 1 and at 50 connections; how many times a bare page the first asking after a write
of a task takes, and its queries; queries later on; bytes on the wire, compressed. Absolute times mean little on a
shared machine, so only ratios are judged. A page that is slow is asked fewer times, so that the whole run stays under
four minutes.
"""

import argparse
import re
import socket
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from tests.benchmarks.asking import ask
from tests.benchmarks.rows import fill
from webapp.core import migrating
from webapp.core.database import Database
from webapp.core.settings import Settings

PAGES = {
    "Today": "/builds/{build}/today",
    "What stops it": "/builds/{build}/what-stops",
    "What stops it, one task": "/builds/{build}/what-stops?task={task}",
    "Before cover": "/builds/{build}/surfaces/S7/before-cover",
    "Before cover, all": "/builds/{build}/before-cover",
    "Phases": "/builds/{build}/phases",
    "Task": "/builds/{build}/tasks/{task}",
    "Surfaces": "/builds/{build}/surfaces",
    "Surface": "/builds/{build}/surfaces/S7",
    "Pictures": "/builds/{build}/pictures",
    "Inspections": "/builds/{build}/inspections",
    "Permits": "/builds/{build}/permits",
    "Spend": "/builds/{build}/spend",
    "Workdays": "/builds/{build}/workdays",
    "Log the day": "/builds/{build}/workdays/log",
    "Footage": "/builds/{build}/footage",
    "Episodes": "/builds/{build}/episodes",
}
DRAWINGS = {
    "Full wall, its drawing": "/builds/{build}/surfaces/FULL/drawing",
    "Full wall, its sheet": "/builds/{build}/surfaces/FULL",
}
RUNS = 3
ONE, MANY = 1, 50
AT_MOST = 1.0
"""seconds to spend on one run of one page"""
DRAWN = 20
"""writes after each of which a drawing is asked for"""
FEWEST, MOST = 20, 100
"""askings of one run: enough for a p95, and no more than needed"""


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def p95(answers) -> float:
    ordered = sorted(answer.seconds for answer in answers)
    return ordered[int(len(ordered) * 0.95)]


def wait_for(port: int) -> None:
    for _ in range(1200):
        try:
            socket.create_connection(("127.0.0.1", port), 0.1).close()
            return
        except OSError:
            time.sleep(0.05)
    raise SystemExit("the server did not start")


def first_visit(port: int, page: str, cookie: str) -> int:
    """Bytes of a page and of everything it names, compressed as sent."""
    (answer,) = ask(port, page, cookie)
    text = answer.text()
    total = len(answer.body)
    seen = set(re.findall(r'(?:href|src)="(/static/[^"#]+)', text))
    for name in sorted(seen - {name for name in seen if "manifest" in name or ".png" in name}):
        (file,) = ask(port, name, cookie)
        total += len(file.body)
        if ".css" in name:
            for inner in re.findall(r"url\([\"']?(?:\.\./)?(fonts/[^)\"']+)", file.text()):
                (font,) = ask(port, f"/static/{inner}", cookie)
                total += len(font.body)
    return total


def each_of(seconds: float, connections: int) -> int:
    """How many times each connection asks, for a page that takes so many seconds alone."""
    wanted = min(MOST, max(FEWEST, int(AT_MOST / seconds)))
    return max(2, wanted // connections) if connections > 1 else wanted


def ratio(port: int, path: str, cookie: str, connections: int, seconds: float) -> float:
    """The page's p95 as a ratio to the bare page's, the median of interleaved runs."""
    found = []
    for _ in range(RUNS):
        bare = p95(ask(port, "/bare", cookie, connections, MOST // connections))
        found.append(p95(ask(port, path, cookie, connections, each_of(seconds, connections))) / bare)
    return statistics.median(found)


def cold(port: int, path: str, cookie: str, write: Callable[[], None]) -> tuple[float, int]:
    """The first asking after a write, as a ratio to a bare page, and its queries: the median of three writes."""
    found = []
    for _ in range(RUNS):
        bare = statistics.median(answer.seconds for answer in ask(port, "/bare", cookie, 1, 20))
        write()
        (answer,) = ask(port, path, cookie)
        found.append((answer.seconds / bare, int(answer.headers["x-queries"])))
    return statistics.median(ratio for ratio, _ in found), max(queries for _, queries in found)


def report(port: int, pages: dict[str, str], cookie: str) -> None:
    def write() -> None:
        ask(port, "/write", cookie)

    print(f"{'page':<26}{'1 conn':>8}{'50 conn':>9}{'queries':>9}{'cold':>8}{'queries':>9}{'bytes':>8}")
    for name, path in pages.items():
        first, asked = cold(port, path, cookie, write)
        (answer,) = ask(port, path, cookie)
        one, many = (ratio(port, path, cookie, connections, answer.seconds) for connections in (ONE, MANY))
        warm, size = answer.headers["x-queries"], len(answer.body)
        print(f"{name:<26}{one:>8.1f}{many:>9.1f}{warm:>9}{first:>8.0f}{asked:>9}{size:>8}", flush=True)
    print(f"first visit of Today with all files: {first_visit(port, pages['Today'], cookie)} bytes compressed")


def drawn_anew(port: int, path: str, cookie: str) -> float:
    """p95 of the first askings after a write of a thing on the wall, as a ratio to the bare page's between them."""
    anew, bare = [], []
    for _ in range(DRAWN):
        bare += ask(port, "/bare", cookie, 1, 3)
        ask(port, "/write-item", cookie)
        anew += ask(port, path, cookie)
    return p95(anew) / p95(bare)


def report_drawings(port: int, pages: dict[str, str], cookie: str) -> None:
    print(f"\n{'page':<26}{'kept':>8}{'anew':>8}{'bytes':>8}   p95 as a ratio to a bare page's, one connection")
    for name, path in pages.items():
        anew = statistics.median(drawn_anew(port, path, cookie) for _ in range(RUNS))
        (answer,) = ask(port, path, cookie)
        print(f"{name:<26}{ratio(port, path, cookie, ONE, answer.seconds):>8.1f}{anew:>8.1f}{len(answer.body):>8}")


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--drawings", action="store_true", help="only the drawing of a full wall")
    for name, size in (("tasks", 5000), ("needs", 8000), ("photos", 20000), ("spend", 10000)):
        parser.add_argument(f"--{name}", type=int, default=size)
    size = parser.parse_args()
    with tempfile.TemporaryDirectory() as name:
        settings = Settings(data=Path(name))
        settings.photos.mkdir()
        migrating.upgrade(settings.database, settings.backups)
        database = Database(settings.database)
        slug, cookie = fill(database, size.tasks, size.needs, size.photos, size.spend)
        database.close()
        port = free_port()
        server = subprocess.Popen([sys.executable, "-m", "tests.benchmarks.server", name, str(port)])
        try:
            wait_for(port)
            begun = time.monotonic()
            print(f"{size.tasks} tasks, {size.needs} needs, {size.photos} pictures, {size.spend} lines of spend")
            pages = {page: path.format(build=slug, task=size.tasks - 3) for page, path in PAGES.items()}
            if not size.drawings:
                report(port, pages, cookie)
            report_drawings(port, {page: path.format(build=slug) for page, path in DRAWINGS.items()}, cookie)
            print(f"measured in {time.monotonic() - begun:.0f} seconds")
        finally:
            server.terminate()
            server.wait()


if __name__ == "__main__":
    main()
