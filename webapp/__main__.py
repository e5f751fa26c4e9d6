"""The command line: `studbay demo | serve | backup | restore | check | password`."""

import secrets
import socket
import sys
import tempfile
import threading
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Annotated
from urllib.parse import urlsplit

import typer

from webapp.accounts import actions as accounts
from webapp.accounts.rules.passwords import read_new_password
from webapp.accounts.store import find_owner
from webapp.backup import actions as backup
from webapp.backup.rules.keeping import copy_name, show_size
from webapp.backup.store import is_empty, looking_at
from webapp.core import clock, lock, serving
from webapp.core.database import Database
from webapp.core.migrating import MigrationFailed
from webapp.core.settings import THIS_MACHINE, Settings, read_settings
from webapp.demo import actions as demo_build
from webapp.main import create_app, create_trust_app, own_names
from webapp.phone.files import secure
from webapp.phone.pages import Reachable, way_in
from webapp.values.errors import BadInput
from webapp.values.words import plural

command_line = typer.Typer(
    help="Studbay keeps one self-builder's long build straight. All of it lies in one folder on this machine.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
)
DEMO_MARK = "demo.txt"

Data = Annotated[
    Path | None,
    typer.Option("--data", help="Folder of the record, the pictures and the copies. Without it: ./studbay-data"),
]
Port = Annotated[
    int | None, typer.Option("--port", min=0, max=65535, help="Port to listen on; 0 takes a free one. Without it: 8730")
]


@contextmanager
def sentences() -> Iterator[None]:
    """What cannot be done is said in a sentence, with exit code 2; only our own mistakes show where they broke."""
    try:
        yield
    except (BadInput, MigrationFailed) as error:
        typer.echo(str(error), err=True)
        raise typer.Exit(2) from None


def settings_for(
    data: Path | None,
    port: int | None = None,
    host: str | None = None,
    demo: bool | None = None,
    https: bool | None = None,
) -> Settings:
    """What the command line says goes first, then the environment; None says nothing."""
    return read_settings(
        data=data.expanduser().absolute() if data else None, port=port, host=host, demo=demo, https=https
    )


def say(*lines: str) -> None:
    for line in lines:
        typer.echo(line)
    sys.stdout.flush()


def run(settings: Settings, database: Database, demo_token: str = "", held: date | None = None) -> None:
    """Print the addresses, answer until Ctrl-C, fold the log into the file. `held` is the day the demo stands still."""
    app = create_app(settings, database)
    app.state.demo_token = demo_token
    if held:
        app.dependency_overrides[clock.today] = lambda: held
    opened = serving.listen(settings)
    port = int(opened.getsockname()[1])
    found = serving.addresses(settings, port, "https" if settings.https else "http")
    with serving.ends_softly() as asked, ExitStack() as beside:
        app.state.reach, keys = Reachable(found), None
        if settings.https:
            app.state.reach, keys = secured(settings, port, found, beside)
        greet(database, found, demo_token)
        if app.state.reach.trust:
            say(*way_in(app.state.reach))
        beside.enter_context(daily_copies(settings, database))
        serving.serve(app, opened, settings, asked, keys)
    serving.fold_log(database)
    database.close()
    say("Stopped. Everything is saved.")


def secured(
    settings: Settings, port: int, found: tuple[str, ...], beside: ExitStack
) -> tuple[Reachable, tuple[Path, Path]]:
    """The certificate, made when there is none that fits, and the page beside it that leads a phone to trust it."""
    hosts = (urlsplit(address).hostname or "" for address in found)
    made = secure(settings.data, socket.gethostname(), (*own_names(settings), *hosts))
    plain = serving.listen(replace(settings, port=port + 1 if settings.port else 0))
    trust = serving.addresses(settings, int(plain.getsockname()[1]))[-1]
    reach = Reachable(found, trust, made.digest)
    beside.enter_context(serving.answering_beside(create_trust_app(settings, reach, made.authority, port), plain))
    return reach, (made.certificate, made.key)


@contextmanager
def daily_copies(settings: Settings, database: Database) -> Iterator[None]:
    """One automatic copy a day while the block runs; the demo needs none."""
    if settings.demo:
        yield
        return
    stop = threading.Event()
    copies = threading.Thread(target=backup.keep_daily, args=(database, settings, stop), daemon=True)
    copies.start()
    try:
        yield
    finally:
        stop.set()
        copies.join(timeout=30)


def greet(database: Database, found: tuple[str, ...], demo_token: str) -> None:
    """Where Studbay is to be found, each address on a line of its own; before the set-up, the one-time address."""
    token = ""
    if not demo_token:
        with database.writing() as session:
            token = accounts.offer_set_up(session)
    if demo_token:
        say("Open this address; it signs you in by itself:", f"{found[0]}/demo/{demo_token}")
    elif token:
        say("Set up your name and password here; this address works once:")
        say(*(f"{address}/set-up/{token}" for address in found))
    else:
        say("Studbay is open at:", *(f"{address}/" for address in found))
    say("Stop with Ctrl-C.")


@command_line.command()
def serve(
    port: Port = None,
    data: Data = None,
    host: Annotated[
        str | None,
        typer.Option("--host", help="Address to listen on; 0.0.0.0 lets your phone in. Without it: this machine only"),
    ] = None,
    https: Annotated[
        bool | None,
        typer.Option("--https", help="Speak https with a certificate made here, and let the phone in on your network"),
    ] = None,
) -> None:
    """Open your build in the browser. The first start prints an address where you set your name and password."""
    with sentences():
        settings = settings_for(data, port=port, host=host, https=https)
        if settings.https and host is None and settings.host == THIS_MACHINE:
            settings = replace(settings, host="0.0.0.0")  # noqa: S104 (https is for the phone on the same network)
        with lock.held(settings.data):
            run(settings, serving.open_record(settings))


@command_line.command()
def demo(
    port: Port = None,
    data: Annotated[
        Path | None,
        typer.Option("--data", help="Keep the demo in this folder. Without it: a passing folder, removed at the end"),
    ] = None,
) -> None:
    """Try everything on a year of an invented build. On this machine only; it signs you in by itself."""
    with sentences():
        if data is not None:
            open_demo(settings_for(data, port=port, host="127.0.0.1", demo=True))
            return
        with tempfile.TemporaryDirectory(prefix="studbay-demo-", ignore_cleanup_errors=True) as folder:
            open_demo(settings_for(Path(folder), port=port, host="127.0.0.1", demo=True))


def open_demo(settings: Settings) -> None:
    """Load the invented build unless it is there; a record of one's own is never mixed with it."""
    mark = settings.data / DEMO_MARK
    if settings.database.exists() and not mark.exists():
        raise BadInput(f"The folder {settings.data} holds a record of its own. Name another folder for the demo.")
    with lock.held(settings.data):
        mark.write_text("This folder holds the demo of Studbay, an invented build.\n", encoding="utf-8")
        database = serving.open_record(settings)
        with looking_at(settings.database) as connection:
            fresh = is_empty(connection)
        if fresh:
            say("Making the invented build …")
            demo_build.load(database, settings, clock.today())
        run(settings, database, secrets.token_urlsafe(16), demo_build.held_day(database))


@command_line.command("backup")
def make_backup(
    data: Data = None,
    to: Annotated[
        Path | None,
        typer.Option("--to", help="File, or folder, to write the copy to. Without it: backups/ in the data folder"),
    ] = None,
) -> None:
    """Write one file that brings everything back: the record and every picture. Studbay may run meanwhile."""
    with sentences():
        settings = settings_for(data)
        made = backup.make_copy(settings, to=place_for(to))
        papers = "".join(f", {plural(count, what)}" for what, count in made.kept if count)
        kept = f"{plural(made.rows, 'row')}, {plural(made.pictures, 'picture')}{papers}"
        say(str(made.path), f"{kept}, {show_size(made.size)}.")
        for note in made.notes:
            typer.echo(f"Look at this: {note}", err=True)


def place_for(to: Path | None) -> Path | None:
    """The file to write; an existing one is never written over."""
    if to is None:
        return None
    to = to.expanduser().absolute()
    if to.is_dir():
        to /= copy_name(clock.now(), daily=False)
    if to.exists():
        raise BadInput(f"There is a file {to} already. Name another one.")
    return to


@command_line.command()
def restore(
    file: Annotated[
        Path,
        typer.Argument(help="A copy made by `studbay backup` or the page of copies, or a record of before a change"),
    ],
    data: Data = None,
    replace_it: Annotated[
        bool,
        typer.Option("--replace", help="Move a record that is there aside (into before-restore-…) and take its place"),
    ] = False,
) -> None:
    """Bring a copy back. Every byte of it is checked before anything is touched; nothing is ever deleted."""
    with sentences():
        settings = settings_for(data)
        with lock.held(settings.data):
            done = backup.restore(settings, file.expanduser().absolute(), replace=replace_it)
        say(f"The copy of {done.made_at} is back in {settings.data}.")
        say(f"{plural(done.rows, 'row')}, {plural(done.pictures, 'picture')}.")
        if done.aside:
            say(f"What was there before lies in {done.aside}.")
        for note in done.notes:
            typer.echo(f"Look at this: {note}", err=True)


@command_line.command()
def check(data: Data = None) -> None:
    """Look the data folder over: record, pictures, copies. Changes nothing; exit code 1 when something is not well."""
    with sentences():
        findings = backup.look_over(settings_for(data))
    for finding in findings:
        say(finding.sentence if finding.well else f"Look at this: {finding.sentence}")
    if not all(finding.well for finding in findings):
        raise typer.Exit(1)
    say("All is well.")


@command_line.command()
def password(data: Data = None) -> None:
    """Set a new password when the old one is forgotten. Signs out every phone and laptop."""
    with sentences():
        settings = settings_for(data)
        if not settings.database.exists():
            raise BadInput(f"There is no record in {settings.data}. Name its folder with --data.")
        with lock.held(settings.data):
            database = serving.open_record(settings)
            with database.reading() as session:
                owner = find_owner(session)
            if owner is None:
                raise BadInput("Nobody is set up here yet. Type: studbay serve")
            typed = typer.prompt(f"A new password for {owner.name}", hide_input=True, confirmation_prompt=True)
            hashed = accounts.hash_password(read_new_password(typed))
            with database.writing() as session:
                accounts.change_password(session, owner.id, hashed, keep=None)
            serving.fold_log(database)
            database.close()
        say("The password is changed.")


def main() -> None:
    command_line(prog_name="studbay")


if __name__ == "__main__":
    main()
