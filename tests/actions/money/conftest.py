"""One record for all examples of a law."""

import shutil

import pytest

from webapp.core.database import Database


@pytest.fixture(scope="module")
def database_of_sums(empty_record, tmp_path_factory):
    file = tmp_path_factory.mktemp("sums") / "studbay.sqlite3"
    shutil.copy(empty_record, file)
    opened = Database(file)
    yield opened
    opened.close()
