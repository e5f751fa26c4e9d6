"""Reading papers."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date

from sqlalchemy import func, select
from sqlmodel import Session, col

from webapp.core.database import kept_list, rows
from webapp.papers.models import Paper, PaperAbout
from webapp.papers.rules.things import About
from webapp.photos.models import Photo
from webapp.values.errors import NotFound


@dataclass(frozen=True, slots=True)
class PaperFacts:
    """One paper. `photo`: SHA-256 of its picture, empty without one; `about` in the order it was written."""

    id: int
    code: str
    kind: str
    name: str
    day: date | None
    where: str
    note: str
    private: bool
    at_hand: bool
    in_house_file: bool
    photo_id: int | None
    file_sha256: str
    file_name: str
    file_bytes: int
    media_type: str
    replaced_by_id: int | None
    ended_on: date | None
    photo: str = ""
    about: tuple[About, ...] = ()

    @property
    def stands(self) -> bool:
        """Whether it is still to be used: not replaced by a newer one and not put away."""
        return self.replaced_by_id is None and self.ended_on is None


_OWN = tuple(name for name in PaperFacts.__dataclass_fields__ if name not in {"photo", "about"})


@kept_list
def list_papers(session: Session, build_id: int) -> tuple[PaperFacts, ...]:
    """Every paper of the build, the newest day first, those without a day last. Two queries."""
    chosen = (
        select(*(getattr(Paper, name) for name in _OWN), func.coalesce(col(Photo.sha256), ""))
        .outerjoin(Photo, col(Photo.id) == col(Paper.photo_id))
        .where(col(Paper.build_id) == build_id)
        .order_by(col(Paper.day).is_(None), col(Paper.day).desc(), col(Paper.id).desc())
    )
    filed = (
        select(col(PaperAbout.paper_id), col(PaperAbout.about_kind), col(PaperAbout.about_id))
        .join(Paper, col(Paper.id) == col(PaperAbout.paper_id))
        .where(col(Paper.build_id) == build_id)
        .order_by(col(PaperAbout.id))
    )
    about: dict[int, list[About]] = defaultdict(list)
    for paper_id, kind, about_id in rows(session, filed):
        about[paper_id].append((kind, about_id))
    papers = (PaperFacts(*row) for row in rows(session, chosen))
    return tuple(replace(paper, about=tuple(about[paper.id])) for paper in papers)


def paper_choices(session: Session, build_id: int) -> tuple[tuple[str, str], ...]:
    """Id and name of every paper that holds, to choose from; the newest day first."""
    return tuple((str(one.id), one.name) for one in list_papers(session, build_id) if one.stands)


def get_paper(session: Session, build_id: int, code: str) -> PaperFacts:
    return _only(paper for paper in list_papers(session, build_id) if paper.code == code)


def paper_by_id(session: Session, build_id: int, paper_id: int) -> PaperFacts:
    return _only(paper for paper in list_papers(session, build_id) if paper.id == paper_id)


def _only(found: Iterable[PaperFacts]) -> PaperFacts:
    for paper in found:
        return paper
    raise NotFound("There is no such paper here.")
