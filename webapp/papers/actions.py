"""Keeping papers: put on record, put right, replaced by a newer one, put away. Nothing is taken out."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from sqlmodel import Session, col, select

from webapp.core import clock
from webapp.core.forms import Upload
from webapp.core.settings import Settings
from webapp.papers import store
from webapp.papers.files import KeptFile, find_file, keep_pdf
from webapp.papers.models import Paper, PaperAbout
from webapp.papers.rules.pdf import BEGINS, MEDIA_TYPE, begins_as_pdf
from webapp.papers.rules.things import About
from webapp.photos.actions import keeping

WORDS = ("name", "where", "note", "private", "at_hand", "in_house_file")
"""what is put right in place; another kind, day or content is another paper"""


@dataclass(frozen=True, slots=True)
class Taken:
    """What came with a form: a picture, a PDF, or nothing."""

    photo_id: int | None = None
    pdf: KeptFile | None = None


@dataclass(frozen=True, slots=True)
class PaperDraft:
    """A paper as the builder says it."""

    kind: str
    name: str
    day: date | None = None
    where: str = ""
    note: str = ""
    private: bool = True
    at_hand: bool = True
    in_house_file: bool = True
    taken: Taken = Taken()
    about: tuple[About, ...] = ()


def keeping_paper(session: Session, settings: Settings) -> Callable[[Upload], str]:
    """Keeps a sent file as what its own first bytes say it is: a PDF, or a picture. Gives the words for `taken`."""
    keep_picture = keeping(session, settings.photos, settings.picture_mb)

    def keep(sent: Upload) -> str:
        head = sent.file.read(len(BEGINS))
        sent.file.seek(0)
        if not begins_as_pdf(head):
            return f"picture:{keep_picture(sent)}"
        kept = keep_pdf(settings.papers, sent.file, sent.filename or "", settings.paper_mb)
        return f"pdf:{kept.sha256}:{kept.size}:{kept.name}"

    return keep


def taken(words: str, papers: Path) -> Taken:
    """What `keeping_paper` kept, from its words; nothing for words that name no file we have."""
    kind, _, rest = words.partition(":")
    if kind == "picture" and rest.isdecimal():
        return Taken(photo_id=int(rest))
    sha256, _, named = rest.partition(":")
    path = find_file(papers, sha256) if kind == "pdf" else None
    return Taken(pdf=KeptFile(sha256, named.partition(":")[2][-200:], path.stat().st_size)) if path else Taken()


def add_paper(session: Session, build_id: int, draft: PaperDraft) -> Paper:
    """Put a paper on record. It gets the next free short name."""
    pdf = draft.taken.pdf
    paper = Paper(
        build_id=build_id,
        code=_next_code(session, build_id),
        kind=draft.kind,
        day=draft.day,
        photo_id=draft.taken.photo_id,
        file_sha256=pdf.sha256 if pdf else "",
        file_name=pdf.name if pdf else "",
        file_bytes=pdf.size if pdf else 0,
        media_type=MEDIA_TYPE if pdf else "",
        recorded_at=clock.now(),
        **{name: getattr(draft, name) for name in WORDS},
    )
    session.add(paper)
    session.flush()
    for kind, about_id in dict.fromkeys(draft.about):
        session.add(PaperAbout(paper_id=paper.row_id, about_kind=kind, about_id=about_id))
    session.flush()
    return paper


def _next_code(session: Session, build_id: int) -> str:
    codes = session.exec(select(Paper.code).where(col(Paper.build_id) == build_id)).all()
    numbers = [int(code[2:]) for code in codes if code[:2] == "PA" and code[2:].isdecimal()]
    return f"PA{max(numbers, default=0) + 1:02d}"


def change_paper(session: Session, build_id: int, paper_id: int, draft: PaperDraft) -> Paper:
    """Put its words right in place; with another file, kind or day a newer paper stands in for it and it is kept."""
    was = store.paper_by_id(session, build_id, paper_id)
    new_file = draft.taken != Taken()
    if new_file or (draft.kind, draft.day) != (was.kind, was.day):
        old = session.get_one(Paper, paper_id)
        newer = add_paper(session, build_id, draft if new_file else _with_file_of(draft, was))
        old.replaced_by_id = newer.row_id
        session.add(old)
        return newer
    paper = session.get_one(Paper, paper_id)
    for name in WORDS:
        setattr(paper, name, getattr(draft, name))
    session.add(paper)
    _file_under(session, paper_id, draft.about)
    session.flush()
    return paper


def _with_file_of(draft: PaperDraft, was: store.PaperFacts) -> PaperDraft:
    pdf = KeptFile(was.file_sha256, was.file_name, was.file_bytes) if was.file_sha256 else None
    values = {name: getattr(draft, name) for name in PaperDraft.__dataclass_fields__}
    return PaperDraft(**(values | {"taken": Taken(was.photo_id, pdf)}))


def _file_under(session: Session, paper_id: int, about: tuple[About, ...]) -> None:
    """What a paper is about: links that are not wanted go, new ones come."""
    there = session.exec(select(PaperAbout).where(col(PaperAbout.paper_id) == paper_id)).all()
    for link in there:
        if (link.about_kind, link.about_id) not in about:
            session.delete(link)
    for kind, about_id in dict.fromkeys(about):
        if all((link.about_kind, link.about_id) != (kind, about_id) for link in there):
            session.add(PaperAbout(paper_id=paper_id, about_kind=kind, about_id=about_id))


def also_about(session: Session, build_id: int, paper_id: int, about: About) -> None:
    """File a paper under one thing more."""
    was = store.paper_by_id(session, build_id, paper_id)
    _file_under(session, paper_id, (*was.about, about))
    session.flush()


def put_away(session: Session, build_id: int, paper_id: int, on: date | None) -> None:
    """It holds no more from this day on, and stays readable; None takes it back into use."""
    store.paper_by_id(session, build_id, paper_id)
    paper = session.get_one(Paper, paper_id)
    paper.ended_on = on
    session.add(paper)
    session.flush()
