"""Prints each page's p95 as a ratio to a bare page of the same server in the same run.

    python -m tests.benchmarks.run [--tasks 5000 --needs 8000 --photos 20000 --spend 10000]

Median of three interleaved runs at 1 and at 50 connections; count of queries, right after a write (cold) and later
(warm); bytes on the wire, compressed. Absolute times mean little on a shared machine, so only ratios are judged.
"""

import argparse
import re
import socket
import statistics
import subprocess
import sys
import tempfile
import time
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
RUNS = 3


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def p95(answers) -> float:
    ordered = sorted(answer.seconds for answer in answers)
    return ordered[int(len(ordered) * 0.95)]


def wait_for(port: int) -> None:
    for _ in range(200):
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


def measure(port: int, pages: dict[str, str], cookie: str, connections: int, each: int) -> dict[str, float]:
    """Page -> ratio of its p95 to the bare page's, the median of interleaved runs."""
    ratios: dict[str, list[float]] = {name: [] for name in pages}
    for _ in range(RUNS):
        for name, path in pages.items():
            bare = p95(ask(port, "/bare", cookie, connections, each))
            ratios[name].append(p95(ask(port, path, cookie, connections, each)) / bare)
    return {name: statistics.median(found) for name, found in ratios.items()}


def report(port: int, pages: dict[str, str], cookie: str) -> None:
    cold = {}
    for name, path in pages.items():
        cold[name] = ask(port, path, cookie)[0].headers["x-queries"]
    one = measure(port, pages, cookie, 1, 100)
    fifty = measure(port, pages, cookie, 50, 8)
    print(f"{'page':<26}{'1 conn':>8}{'50 conn':>9}{'queries':>9}{'first':>7}{'bytes':>8}")
    for name, path in pages.items():
        (answer,) = ask(port, path, cookie)
        print(
            f"{name:<26}{one[name]:>8.1f}{fifty[name]:>9.1f}{answer.headers['x-queries']:>9}{cold[name]:>7}{len(answer.body):>8}"
        )
    print(f"first visit of Today with all files: {first_visit(port, pages['Today'], cookie)} bytes compressed")


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
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
            print(f"{size.tasks} tasks, {size.needs} needs, {size.photos} pictures, {size.spend} lines of spend")
            pages = {page: path.format(build=slug, task=size.tasks - 3) for page, path in PAGES.items()}
            report(port, pages, cookie)
        finally:
            server.terminate()
            server.wait()


if __name__ == "__main__":
    main()
