"""The real program over a real record, with a bare page and a count of queries beside it, for the benchmarks."""

import gc
import sys
from contextvars import ContextVar
from pathlib import Path

import uvicorn
from fastapi import Request
from fastapi.responses import HTMLResponse
from sqlalchemy import event, text

from webapp.core.database import Database
from webapp.core.dependencies import get_database
from webapp.core.settings import Settings
from webapp.main import create_app

BARE = "<!doctype html><title>Bare</title><p>A page that asks nothing of the record."
asked: ContextVar[list[int]] = ContextVar("asked")


def bare() -> HTMLResponse:
    return HTMLResponse(BARE)


def write(request: Request) -> HTMLResponse:
    """A task is written, the dearest write there is: the graph is made anew, and whatever was kept is drawn anew."""
    with get_database(request).writing() as session:
        session.execute(text("UPDATE plan_task SET title = title WHERE id = 1"))
        return HTMLResponse(BARE)


def write_item(request: Request) -> HTMLResponse:
    """A hidden thing of the full wall is written: its drawing is made anew."""
    with get_database(request).writing() as session:
        session.execute(text("UPDATE surfaces_item SET x_nm = x_nm + 3175000 WHERE label = 'Switch 1'"))
        return HTMLResponse(BARE)


class CountQueries:
    """Puts the number of SQL statements of a request into a header."""

    def __init__(self, app) -> None:
        self.app = app

    async def __call__(self, scope, receive, send) -> None:
        count = [0]
        asked.set(count)

        async def counted(message) -> None:
            if message["type"] == "http.response.start":
                message["headers"].append((b"x-queries", str(count[0]).encode()))
            await send(message)

        await self.app(scope, receive, counted)


def main(folder: str, port: str) -> None:
    settings = Settings(data=Path(folder))
    database = Database(settings.database)
    for engine in database.engines():

        @event.listens_for(engine, "before_cursor_execute")
        def count(*_args) -> None:
            if (found := asked.get(None)) is not None:
                found[0] += 1

    app = create_app(settings, database)
    app.add_api_route("/bare", bare, response_class=HTMLResponse)
    app.add_api_route("/write", write, response_class=HTMLResponse)
    app.add_api_route("/write-item", write_item, response_class=HTMLResponse)
    app.add_middleware(CountQueries)
    gc.collect()
    gc.freeze()  # as the program does
    uvicorn.run(app, host="127.0.0.1", port=int(port), log_level="error", access_log=False, http="h11", loop="asyncio")


if __name__ == "__main__":
    main(*sys.argv[1:3])
