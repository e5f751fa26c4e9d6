"""One thread that does work left over by pages: at the start, and again after each commit."""

import logging
import threading
from collections.abc import Callable

from webapp.core.database import Database

log = logging.getLogger("studbay")


class Background:
    """Runs `work(stopped)` at the start and after each commit of `database`; what it left undone is done at the next.

    `work` finds by itself what there is to do, so nothing is lost when the program ends in between.
    """

    def __init__(self, database: Database, work: Callable[[Callable[[], bool]], None]) -> None:
        self._database = database
        self._work = work
        self._change = threading.Condition()
        self._wanted = 0
        self._done = 0
        self._stopping = False
        self._thread = threading.Thread(target=self._run, name="background", daemon=True)

    def start(self) -> None:
        self._database.after_commit.append(self.wake)
        self.wake()
        self._thread.start()

    def wake(self) -> None:
        with self._change:
            self._wanted += 1
            self._change.notify_all()

    def stop(self) -> None:
        """Let the piece of work at hand end, then end the thread."""
        self._database.after_commit.remove(self.wake)
        with self._change:
            self._stopping = True
            self._change.notify_all()
        self._thread.join()

    def wait_idle(self) -> None:
        """Return when everything wanted so far is done."""
        with self._change:
            self._change.wait_for(lambda: self._done == self._wanted or self._stopping)

    def _stopped(self) -> bool:
        return self._stopping

    def _run(self) -> None:
        while True:
            with self._change:
                self._change.wait_for(lambda: self._wanted > self._done or self._stopping)
                if self._stopping:
                    return
                wanted = self._wanted
            try:
                self._work(self._stopped)
            except Exception:
                log.exception("Work beside the pages failed; it is tried again after the next change.")
            with self._change:
                self._done = wanted
                self._change.notify_all()
