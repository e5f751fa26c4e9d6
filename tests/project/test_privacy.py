"""No public page reaches private data: a marked secret stands in every private text, and none of them comes out."""

import json
import shutil
import subprocess
from datetime import date, datetime

import pytest
from sqlalchemy import Column, Table, insert, select, update
from sqlmodel import SQLModel

from tests import builders, pictures
from tests.reading import soup
from webapp import all_models
from webapp.audience.models import PublicPicture

assert all_models, "every table is known"

TABLES = {table.name: table for table in SQLModel.metadata.sorted_tables}
PUBLIC = {name for name in TABLES if name.startswith("audience_")}
PRIVATE = set(TABLES) - PUBLIC

APPROVED = {
    ("plan_build", "name"): "Bindery",
    ("plan_build", "slug"): "bindery",
    ("episodes_episode", "title"): "South in two halves",
    ("episodes_episode", "body_md"): "It **held**.",
    ("episodes_picture", "caption"): "East wall",
    ("episodes_picture", "alt"): "Open studs",
    ("plan_task", "kind"): "wiring",
}
"""What the builder chose to show, and the kind of work that its cautions belong to."""

MACHINERY = {
    ("accounts_sign_in", "token_hash"),
    ("photos_photo", "sha256"),
    ("photos_photo", "taken_at"),
    ("photos_photo", "media_type"),
    ("inspections_inspection", "ask_by"),
    ("episodes_episode", "drafted_from"),
    ("surfaces_cover", "evidence"),
    ("surfaces_run", "points"),
    ("surfaces_cover", "not_cleared"),
}
"""Texts with a form of their own (hashes, a moment, JSON): looked for under their own value, not under a mark."""


def mark(table: str, column: str) -> str:
    return f"SECRET-{table}-{column}"


def kind(column: Column) -> type:
    """What Python sees of a column: SQLModel wraps texts and moments in types of its own."""
    return getattr(column.type, "impl_instance", column.type).python_type


def is_free_text(table: Table, column: Column) -> bool:
    """Whether any words fit: not a word of a closed list, which a CHECK holds."""
    closed = any(f"{column.name} IN (" in str(getattr(each, "sqltext", "")) for each in table.constraints)
    if kind(column) is not str or closed or column.foreign_keys:
        return False
    return (table.name, column.name) not in APPROVED.keys() | MACHINERY


def free_texts(table: Table) -> dict[str, str]:
    """A mark for each free text of a table, cut to what fits."""
    found = {}
    for column in table.columns:
        if is_free_text(table, column):
            found[column.name] = mark(table.name, column.name)[: getattr(column.type, "length", None) or None]
    return found


def filler(table: Table, column: Column) -> object:
    """Any value that a column takes, for a row of a table that would else be empty."""
    if column.foreign_keys:
        to_itself = any(key.column.table is table for key in column.foreign_keys)
        return None if to_itself else 1
    if column.name in free_texts(table):
        return free_texts(table)[column.name]
    values = {bool: True, int: 1, datetime: builders.AT, date: builders.AT.date()}
    if kind(column) in values:
        return values[kind(column)]
    for each in table.constraints:
        words = str(getattr(each, "sqltext", ""))
        if words.startswith(f"{column.name} IN ("):
            return words.partition("'")[2].partition("'")[0]
    return "[]"


@pytest.fixture
def everything_marked(database, build, settings) -> int:
    """An episode in the making with a picture, and at least one row in every private table, all texts marked."""
    with database.writing() as session:
        phase = builders.a_phase(session, build)
        builders.a_task(session, phase, state="done", done_on=builders.AT.date(), kind="wiring")
        builders.an_episode(session, build, title="South in two halves", body_md="It **held**.", show_hours=False)
        photo_id = builders.a_picture(session, build, settings.photos, pictures.a_jpeg(place=True))
        connection = session.connection()
        for name in sorted(PRIVATE, key=list(TABLES).index):
            table = TABLES[name]
            if connection.execute(select(table)).first() is None:
                row = {
                    column.name: filler(table, column)
                    for column in table.columns
                    if column.name != "id" or kind(column) is not int
                }
                connection.execute(insert(table).values(row))
            if texts := free_texts(table):
                connection.execute(update(table).values(texts))
    return photo_id


@pytest.fixture
def published(client, everything_marked) -> str:
    """The episode above, gone out through the desk as the builder would; gives the text the draft had."""
    photo = everything_marked
    desk = "/builds/bindery/episodes/1"
    form = {"title": "South in two halves", "from_day": "2026-05-01", "text": "It **held**.", "show_spend": "hidden"}
    client.post(f"{desk}/pictures/{photo}", data=form)
    form |= {f"caption-{photo}": "East wall", f"alt-{photo}": "Open studs", f"looked-{photo}": "yes"}
    draft = client.get(desk).text
    answer = client.post(f"{desk}/publish", data=form)
    assert answer.status_code == 303, answer.text
    client.post("/builds/bindery/episodes/1/corrections", data={"words": "South was held."})
    return draft


def every_public_answer(stranger) -> dict[str, bytes]:
    """Every public page of the build and every picture on them, fetched signed out."""
    found = {}
    for path in ("/watch", "/watch/bindery", "/watch/bindery/1", "/watch/bindery/feed.xml", "/sign-in"):
        answer = stranger.get(path)
        assert answer.status_code == 200, path
        found[path] = answer.content + repr(answer.headers).encode()
    page = soup(stranger.get("/watch/bindery/1"))
    for image in page.select("img"):
        for address in {image["src"], *(part.split()[0] for part in image["srcset"].split(", "))}:
            answer = stranger.get(address)
            assert answer.status_code == 200, address
            found[address] = answer.content + repr(answer.headers).encode()
    return found


def test_every_private_table_has_a_marked_row(database, everything_marked):
    """The check below is worth nothing for a table that is empty."""
    with database.reading() as session:
        for name in PRIVATE - {"core_sent"}:
            row = session.connection().execute(select(TABLES[name])).mappings().first()
            assert row is not None, name
            for column, words in free_texts(TABLES[name]).items():
                assert row[column] == words, f"{name}.{column}"
    assert sum(len(free_texts(TABLES[name])) for name in PRIVATE) > 90


def test_no_marked_secret_is_on_any_public_page(stranger, published):
    assert "SECRET-" in published, "the builder's own desk does show marks, so the check can fail"
    for path, body in every_public_answer(stranger).items():
        assert b"SECRET-" not in body, f"{path}: {body[body.index(b'SECRET-') :][:80]!r}"


def test_what_was_approved_and_only_that_is_what_the_page_says(stranger, published):
    page = stranger.get("/watch/bindery/1").text
    for words in ("Bindery", "South in two halves", "<strong>held</strong>", "East wall", "Open studs"):
        assert words in page
    assert "South was held." in page


def test_no_private_number_hash_or_name_of_a_file_is_there_either(stranger, published, database):
    with database.reading() as session:
        (photo,) = session.connection().execute(select(TABLES["photos_photo"])).mappings().all()
        tokens = session.connection().execute(select(TABLES["accounts_sign_in"].c.token_hash)).scalars().all()
        names = session.connection().execute(select(TABLES["audience_picture"].c.name)).scalars().all()
    private = [photo["sha256"], "IMG_1234", "the builder of", *tokens]
    for path, body in every_public_answer(stranger).items():
        assert not [each for each in private if each.encode() in body], path
    assert len(names) == 1 and photo["sha256"][:8] not in names[0]


def test_public_pictures_carry_nothing_but_pixels(stranger, published):
    """Groups by exiftool: its own, the file's, and what the WebP container itself needs (RFC 9649, 2.7: VP8 chunks)."""
    if shutil.which("exiftool") is None:
        pytest.skip("exiftool is not installed")
    told = {path: body for path, body in every_public_answer(stranger).items() if path.startswith("/watch/pictures/")}
    assert len(told) == 2
    for path in told:
        body = stranger.get(path).content
        run = subprocess.run(["exiftool", "-j", "-G1", "-a", "-u", "-"], input=body, capture_output=True, check=True)
        groups = {name.partition(":")[0] for name in json.loads(run.stdout)[0]} - {"SourceFile"}
        assert groups <= {"ExifTool", "System", "File", "RIFF", "Composite"}, groups
        assert not {b"EXIF", b"XMP ", b"ICCP"} & {body[at : at + 4] for at in range(12, len(body) - 4, 2)}


def test_the_public_tables_point_at_no_private_one():
    for name in PUBLIC:
        for key in TABLES[name].foreign_keys:
            assert key.column.table.name in PUBLIC, f"{name} points at {key.column.table.name}"
    assert PublicPicture.__tablename__ in PUBLIC
