"""Puts the program together: middleware, error handlers, every router. The only importer of routes."""

import logging
import socket
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from functools import cache, partial

import anyio.to_thread
from fastapi import Depends, FastAPI
from jinja2 import Environment
from sqlmodel import Session
from starlette.datastructures import State
from starlette.middleware.gzip import GZipMiddleware

from webapp import paths
from webapp.accounts import public_routes as accounts_public
from webapp.accounts import routes as accounts
from webapp.accounts.guard import signed_in
from webapp.audience import public_routes as audience_public
from webapp.backup import routes as backup
from webapp.core import arriving, assets, clock, errors, headers, rendering
from webapp.core.background import Background
from webapp.core.database import Database
from webapp.core.settings import Settings
from webapp.core.sheets import Frame, SheetLink
from webapp.episodes import routes as episodes
from webapp.footage import routes as footage
from webapp.inspections import public_routes as inspections_public
from webapp.inspections import routes as inspections
from webapp.inspections.pages.naming import name_things
from webapp.linetests import routes as linetests
from webapp.money import routes as money
from webapp.offline import public_routes as offline_public
from webapp.offline import routes as offline
from webapp.papers import routes as papers
from webapp.phone import public_routes as phone_public
from webapp.phone import routes as phone
from webapp.phone.pages import Reachable
from webapp.photos import routes as photos
from webapp.photos.actions import make_waiting
from webapp.plan import routes as plan
from webapp.plan.rules.sheets import ELSEWHERE, SHEETS
from webapp.plan.store import list_builds
from webapp.readiness import routes as readiness
from webapp.surfaces import routes as surfaces
from webapp.today import routes as today
from webapp.today.store import look_ahead
from webapp.voice import routes as voice
from webapp.workdays import routes as workdays
from webapp.workdays.pages.naming import name_spots

PUBLIC = (assets, accounts_public, audience_public, inspections_public, offline_public)
GUARDED = (
    accounts,
    backup,
    episodes,
    footage,
    inspections,
    linetests,
    money,
    offline,
    papers,
    phone,
    photos,
    plan,
    readiness,
    surfaces,
    today,
    voice,
    workdays,
)
THREADS = 8
log = logging.getLogger("studbay")


@asynccontextmanager
async def lifespan(app: FastAPI) -> AsyncIterator[None]:
    """Few threads: forty of them fight over one interpreter and make the slowest answers slower."""
    anyio.to_thread.current_default_thread_limiter().total_tokens = THREADS
    database, settings = app.state.database, app.state.settings
    making = Background(database, partial(make_waiting, database, settings.photos))
    app.state.making = making
    making.start()
    await anyio.to_thread.run_sync(arriving.sweep, settings.arriving)
    await anyio.to_thread.run_sync(at_hand, app)
    yield
    making.stop()
    database.close()


def at_hand(app: FastAPI) -> None:
    """A record that cannot be looked over is no reason not to start: the page that asks says what is wrong."""
    today = app.dependency_overrides.get(clock.today, clock.today)()
    try:
        look_ahead(app.state.database, today)
    except Exception:
        log.exception("The record could not be looked over at the start.")


def own_names(settings: Settings) -> tuple[str, ...]:
    """Names under which this machine may be asked."""
    name = socket.gethostname().lower()
    return (*settings.hosts, settings.host.lower(), name, f"{name}.local")


def newest_frame(session: Session) -> Frame:
    """Settings and copies belong to no build; they list the sheets of the newest one, to go back to."""
    elsewhere = tuple(SheetLink(number, name, path) for number, name, path in ELSEWHERE)
    for build in list_builds(session)[:1]:
        base = f"/builds/{build.slug}"
        own = tuple(SheetLink(number, name, f"{base}{path}") for number, name, path in SHEETS)
        return Frame(build.name, base, own + elsewhere)
    return Frame(sheets=elsewhere)


@cache
def drawn_with() -> tuple[assets.Assets, Environment]:
    """Static files and templates: read once by a process, also by one that runs several of these programs."""
    static = assets.Assets(paths.STATIC)
    return static, rendering.make_environment(paths.TEMPLATES, static)


def create_app(settings: Settings, database: Database) -> FastAPI:
    """The whole program over an open, migrated record."""
    app = FastAPI(title="Studbay", lifespan=lifespan, docs_url=None, redoc_url=None, openapi_url=None)
    errors.register(app)
    for module in PUBLIC:
        app.include_router(module.router)
    for guarded in GUARDED:
        app.include_router(guarded.router, dependencies=[Depends(signed_in)])
    app.add_middleware(GZipMiddleware, minimum_size=600, compresslevel=5)
    app.add_middleware(headers.SameOrigin)
    app.add_middleware(headers.KnownHost, names=own_names(settings))
    app.add_middleware(headers.SecurityHeaders, version=drawn_with()[0].version)
    app.add_middleware(headers.HeadsOnly)
    return opened_over(app, settings, database)


def opened_over(app: FastAPI, settings: Settings, database: Database) -> FastAPI:
    """The same program, with nothing left of a record it was open over before."""
    app.state = State()
    app.state.settings = settings
    app.state.database = database
    app.state.reach = Reachable()
    app.state.frame = newest_frame
    app.state.things = name_things
    app.state.spots = name_spots
    app.state.assets, app.state.templates = drawn_with()
    return app


def create_trust_app(settings: Settings, reach: Reachable, authority: bytes, secure_port: int) -> FastAPI:
    """What answers over plain http beside https: the authority's certificate and how to trust it; nothing private."""
    app = FastAPI(title="Studbay", docs_url=None, redoc_url=None, openapi_url=None)
    app.state.reach = reach
    app.state.authority = authority
    app.state.secure_port = secure_port
    app.state.assets, app.state.templates = drawn_with()
    for module in (assets, phone_public):
        app.include_router(module.router)
    app.add_middleware(headers.KnownHost, names=own_names(settings))
    app.add_middleware(headers.SecurityHeaders, version=drawn_with()[0].version)
    app.add_middleware(headers.HeadsOnly)
    return app
