"""Tables of papers."""

from datetime import date, datetime

from sqlalchemy import UniqueConstraint
from sqlmodel import Field

from webapp.core.tables import Table, one_of
from webapp.papers.rules.kinds import AboutKind, PaperKind


class Paper(Table, table=True):
    """One paper: a picture of it, a file, or only the word that it lies on site."""

    __tablename__ = "papers_paper"
    __table_args__ = (
        one_of("kind", PaperKind),
        UniqueConstraint("build_id", "code"),
    )
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    code: str = Field(max_length=12)
    kind: str
    name: str = Field(max_length=160)
    day: date | None = None
    where: str = Field(default="", max_length=160)
    """where the paper itself lies: "in the tube by the door" """
    note: str = ""
    private: bool = True
    """never offered for anything public"""
    at_hand: bool = True
    """to be readable at a visit, without signal too"""
    in_house_file: bool = True
    photo_id: int | None = Field(default=None, foreign_key="photos_photo.id")
    file_sha256: str = Field(default="", max_length=64)
    """of the kept file, byte for byte; empty when there is none"""
    file_name: str = Field(default="", max_length=200)
    file_bytes: int = 0
    media_type: str = Field(default="", max_length=80)
    replaced_by_id: int | None = Field(default=None, foreign_key="papers_paper.id")
    ended_on: date | None = None
    recorded_at: datetime


class PaperAbout(Table, table=True):
    """What a paper is about. `about_id` belongs to the table of `about_kind`; without any it is about the build."""

    __tablename__ = "papers_about"
    __table_args__ = (one_of("about_kind", AboutKind), UniqueConstraint("paper_id", "about_kind", "about_id"))
    paper_id: int = Field(foreign_key="papers_paper.id", index=True)
    about_kind: str
    about_id: int
