"""What a copy says of itself; anything else is refused before a file is unpacked."""

import json

import pytest

from webapp.backup.rules.manifest import (
    FORMAT,
    MANIFEST,
    Entry,
    Manifest,
    is_known_name,
    read_manifest,
    readme,
    refuse_other_files,
    refuse_other_rows,
    write_manifest,
)
from webapp.values.errors import BadInput

SHA = "ab" + "0" * 62
PICTURE = f"photos/originals/ab/{SHA}"


def a_manifest(*names: str, **more) -> Manifest:
    files = tuple(Entry(name, 5, SHA) for name in ("studbay.sqlite3", *names))
    values = {"format": 1, "made_at": "2026-05-16T12:00:00Z", "tables": "0001", "whole": True, "rows": {"plan_task": 3}}
    return Manifest(**(values | {"files": files, "beside": ()} | more))


def test_a_manifest_is_read_back_as_it_was_written():
    manifest = a_manifest(PICTURE, "photos/public/kite-320.webp", "README.txt")
    assert read_manifest(write_manifest(manifest)) == manifest


@pytest.mark.parametrize(
    "name",
    [
        "../studbay.sqlite3",
        "/etc/passwd",
        "photos/originals/ab/../../../x",
        f"photos/originals/AB/{SHA}",
        "photos/public/..webp",
        "photos/public/a/b.webp",
        "photos\\public\\a.webp",
        "studbay.lock",
        "",
    ],
)
def test_no_file_lands_outside_its_place(name):
    assert not is_known_name(name)
    with pytest.raises(BadInput, match="no copy made by Studbay"):
        read_manifest(write_manifest(a_manifest(name)))


@pytest.mark.parametrize(
    "text", ["", "[]", "null", "{}", '{"format": 1}', '{"format": "x"}', '{"format": 1, "files": 7, "rows": []}']
)
def test_a_foreign_text_is_no_manifest(text):
    with pytest.raises(BadInput, match="no copy made by Studbay"):
        read_manifest(text)


def test_the_copy_of_a_newer_version_says_so():
    with pytest.raises(BadInput, match="newer Studbay"):
        read_manifest(json.dumps({"format": FORMAT + 1, "anything": "new"}))


def test_a_copy_without_its_record_or_with_a_name_twice_is_refused():
    for manifest in (a_manifest(files=(Entry(PICTURE, 5, SHA),)), a_manifest(PICTURE, PICTURE)):
        with pytest.raises(BadInput):
            read_manifest(write_manifest(manifest))


def test_missing_and_additional_files_are_named():
    manifest = a_manifest(PICTURE)
    with pytest.raises(BadInput, match=f"1 file missing, such as {PICTURE}"):
        refuse_other_files(manifest, [MANIFEST, "studbay.sqlite3"])
    with pytest.raises(BadInput, match="does not name itself"):
        refuse_other_files(manifest, [MANIFEST, "studbay.sqlite3", PICTURE, "more.txt"])
    with pytest.raises(BadInput, match="does not name itself"):
        refuse_other_files(manifest, [MANIFEST, "studbay.sqlite3", PICTURE, PICTURE])
    refuse_other_files(manifest, [PICTURE, MANIFEST, "studbay.sqlite3"])


def test_another_number_of_rows_is_refused():
    refuse_other_rows(a_manifest(), {"plan_task": 3})
    with pytest.raises(BadInput, match="not the rows"):
        refuse_other_rows(a_manifest(), {"plan_task": 2})


def test_the_readme_says_what_is_inside_and_how_to_bring_it_back():
    text = readme(a_manifest(PICTURE))
    assert "1 picture as taken" in text
    assert "studbay restore" in text
    assert "2 pictures lay in the data folder" in readme(a_manifest(whole=False, beside=(SHA, SHA)))
