"""A copy brings papers back byte for byte; one that is missing or changed is named."""

import io
from dataclasses import replace

import pytest

from tests.pdfs import a_pdf
from webapp.backup import actions
from webapp.papers.actions import PaperDraft, Taken, add_paper
from webapp.papers.files import find_file, keep_pdf


@pytest.fixture
def paper(settings, database, build) -> str:
    """SHA-256 of a PDF on record."""
    kept = keep_pdf(settings.papers, io.BytesIO(a_pdf()), "letter.pdf", 1)
    with database.writing() as session:
        add_paper(session, build.row_id, PaperDraft("letter", "Tie letter", taken=Taken(pdf=kept)))
    return kept.sha256


def test_a_whole_copy_brings_it_back_byte_for_byte(settings, paper, tmp_path):
    made = actions.make_copy(settings)
    assert made.kept == (("paper", 1), ("voice note", 0))
    assert made.notes == ()
    elsewhere = replace(settings, data=tmp_path / "elsewhere")
    actions.restore(elsewhere, made.path)
    assert find_file(elsewhere.papers, paper).read_bytes() == a_pdf()


def test_replacing_a_record_moves_its_papers_aside(settings, paper):
    made = actions.make_copy(settings)
    done = actions.restore(settings, made.path, replace=True)
    assert find_file(done.aside / "papers", paper).read_bytes() == a_pdf()
    assert find_file(settings.papers, paper).read_bytes() == a_pdf()


def test_a_daily_copy_says_which_papers_it_does_not_bring(settings, paper, tmp_path):
    made = actions.make_copy(settings, daily=True)
    elsewhere = replace(settings, data=tmp_path / "elsewhere")
    (note,) = actions.restore(elsewhere, made.path).notes
    assert note == f"1 paper that it names not in {elsewhere.papers}."


def test_the_look_over_names_a_paper_that_is_missing_or_changed(settings, paper):
    assert all(one.well for one in actions.look_over(settings) if "paper" in one.sentence)
    path = find_file(settings.papers, paper)
    path.write_bytes(b"%PDF-other%%EOF")
    assert f"A paper is not as it was taken in: {path}" in [one.sentence for one in actions.look_over(settings)]
    assert "1 paper not as taken in" in actions.make_copy(settings).notes[0]
    path.unlink()
    assert f"A paper is missing: {path}" in [one.sentence for one in actions.look_over(settings)]
    assert "1 paper of the record not on the disk" in actions.make_copy(settings).notes[0]
