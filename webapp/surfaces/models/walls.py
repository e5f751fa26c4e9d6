"""Surfaces, what is hidden in them, questions, closings. Lengths are whole nanometres."""

from datetime import date, datetime

from sqlalchemy import Index, UniqueConstraint, text
from sqlmodel import Field

from webapp.core.tables import Table, one_of
from webapp.surfaces.rules.kinds import CoverStepKind, LiftedBy, LineKind, OpeningKind, QuestionKind, SurfaceKind


class Surface(Table, table=True):
    """One surface of the building, walked clockwise from the door."""

    __tablename__ = "surfaces_surface"
    __table_args__ = (one_of("kind", SurfaceKind), UniqueConstraint("build_id", "code"))
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    position: int
    code: str = Field(max_length=8)
    """short name in addresses and lists: N, E, C, TR"""
    name: str = Field(max_length=80)
    kind: str = SurfaceKind.WALL.value
    length_nm: int | None = None
    height_nm: int | None = None
    """for a ceiling or floor its width, for a trench its depth"""
    origin_corner: str = Field(default="", max_length=40)
    far_corner: str = Field(default="", max_length=40)
    """name of the other end, where the side it faces does not give it: of a ceiling, slab or trench"""
    back_of_id: int | None = Field(default=None, foreign_key="surfaces_surface.id", index=True)
    """the other face of the same wall, said on one of the two"""
    framing: str = Field(default="", max_length=40)
    spacing_nm: int | None = None
    first_stud_nm: int | None = None
    bearing: bool = False
    facing: str = Field(default="", max_length=1)
    """N, E, S, W for the key plan; empty where it has no side"""
    closed_by: str = Field(default="", max_length=120)
    """what closes it: board, backfill, the pour"""
    note: str = ""
    boxes_before: int | None = None
    """boxes counted on the open surface"""
    boxes_after: int | None = None
    needs_count: bool = False
    """whether a count of boxes is owed before cover"""


class TaskSurface(Table, table=True):
    """A task works on a surface, or closes it."""

    __tablename__ = "surfaces_task_surface"
    __table_args__ = (UniqueConstraint("task_id", "surface_id"),)
    task_id: int = Field(foreign_key="plan_task.id", index=True)
    surface_id: int = Field(foreign_key="surfaces_surface.id", index=True)
    closes: bool = False


class ShotSurface(Table, table=True):
    """A shot is taken of a surface."""

    __tablename__ = "surfaces_shot_surface"
    __table_args__ = (UniqueConstraint("shot_id", "surface_id"),)
    shot_id: int = Field(foreign_key="footage_shot.id", index=True)
    surface_id: int = Field(foreign_key="surfaces_surface.id", index=True)


class ServiceLine(Table, table=True):
    """A circuit, pipe line, duct or cable of the build: a thing of its own that crosses several surfaces."""

    __tablename__ = "surfaces_line"
    __table_args__ = (one_of("kind", LineKind), UniqueConstraint("build_id", "code"))
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    position: int
    code: str = Field(max_length=12)
    """its short name in drawings and addresses: C01, CW"""
    kind: str = LineKind.CIRCUIT.value
    name: str = Field(max_length=120)
    service: str = Field(default="electric", max_length=20)
    number: str = Field(default="", max_length=12)
    """its space in the panel: 7, or 7-9 for two poles"""
    breaker_a: int | None = None
    """amperes of the breaker, or of the fuse"""
    poles: int = 1
    cable: str = Field(default="", max_length=80)
    room: str = Field(default="", max_length=80)
    """what it serves"""
    note: str = ""
    ended_on: date | None = None
    """the day it was taken out of use; it stays listed"""


class Item(Table, table=True):
    """Something hidden: its centre from the named corner and above the finished floor."""

    __tablename__ = "surfaces_item"
    surface_id: int = Field(foreign_key="surfaces_surface.id", index=True)
    label: str = Field(max_length=120)
    kind: str = Field(max_length=40)
    service: str = Field(default="other", max_length=20)
    line_id: int | None = Field(default=None, foreign_key="surfaces_line.id", index=True)
    from_corner: str = Field(default="", max_length=40)
    x_nm: int | None = None
    y_nm: int | None = None
    width_nm: int | None = None
    note: str = ""
    is_box: bool = False
    from_picture: bool = False
    """its offsets were worked out from a picture and not measured with the tape yet"""
    replaced_on: date | None = None
    """old state kept and marked when the thing was moved"""
    replaced_by_id: int | None = Field(default=None, foreign_key="surfaces_item.id")
    """the new state, also where it went to another surface"""


class Opening(Table, table=True):
    """A door, window, hatch or sleeve: its lower left corner, from the named corner and the floor, and rough size."""

    __tablename__ = "surfaces_opening"
    __table_args__ = (one_of("kind", OpeningKind),)
    surface_id: int = Field(foreign_key="surfaces_surface.id", index=True)
    kind: str = OpeningKind.WINDOW.value
    name: str = Field(max_length=80)
    x_nm: int
    y_nm: int
    width_nm: int
    height_nm: int
    removed_on: date | None = None
    """the day it was closed up or found not to be there; it stays listed"""


class Run(Table, table=True):
    """A stretch of cable, pipe or duct on one surface, from bend to bend. One circuit has many, on several surfaces."""

    __tablename__ = "surfaces_run"
    surface_id: int = Field(foreign_key="surfaces_surface.id", index=True)
    label: str = Field(max_length=120)
    """what it is: 12-2 to the bench"""
    line_id: int | None = Field(default=None, foreign_key="surfaces_line.id", index=True)
    service: str = Field(default="other", max_length=20)
    points: str
    """JSON list of [x, y] in nanometres, measured as items are"""
    note: str = ""
    from_item_id: int | None = Field(default=None, foreign_key="surfaces_item.id", index=True)
    """the box or fitting it begins at, of any surface"""
    to_item_id: int | None = Field(default=None, foreign_key="surfaces_item.id", index=True)
    continues_id: int | None = Field(default=None, foreign_key="surfaces_run.id", index=True)
    """the stretch on another surface that this one goes on from"""
    replaced_on: date | None = None
    replaced_by_id: int | None = Field(default=None, foreign_key="surfaces_run.id")


class FixedTie(Table, table=True):
    """A point along a trench or slab found again from two fixed points: both distances, taped on the level."""

    __tablename__ = "surfaces_tie"
    surface_id: int = Field(foreign_key="surfaces_surface.id", index=True)
    name: str = Field(max_length=80)
    """what is there: the bend, the end of the conduit"""
    x_nm: int
    """along the surface from its corner"""
    from_a: str = Field(max_length=80)
    a_nm: int
    from_b: str = Field(max_length=80)
    b_nm: int
    note: str = ""
    removed_on: date | None = None
    """the day it was found wrong or gone; it stays listed"""


class Question(Table, table=True):
    """An open question about a place. Danger and code questions stop until settled."""

    __tablename__ = "surfaces_question"
    __table_args__ = (one_of("kind", QuestionKind),)
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    surface_id: int | None = Field(default=None, foreign_key="surfaces_surface.id", index=True)
    item_id: int | None = Field(default=None, foreign_key="surfaces_item.id")
    kind: str = QuestionKind.QUESTION.value
    words: str
    asked_on: date
    asked_by: str = Field(default="me", max_length=80)
    answer: str = ""
    settled_on: date | None = None


class Lifted(Table, table=True):
    """Something owed that was let go; it stays listed for ever and is printed in the house file."""

    __tablename__ = "surfaces_lifted"
    __table_args__ = (
        one_of("by", LiftedBy),
        Index(
            "ix_surfaces_lifted_counts", "surface_id", "node_key", unique=True, sqlite_where=text("ended_on IS NULL")
        ),
    )
    surface_id: int = Field(foreign_key="surfaces_surface.id", index=True)
    node_key: str = Field(max_length=60)
    """key of the node in the graph of needs: slot:6, shot:20, inspection:3@2"""
    what: str = Field(max_length=200)
    """its title on the day, so that the line reads without the rest"""
    by: str = LiftedBy.ME.value
    who: str = Field(default="me", max_length=80)
    why: str
    on_day: date
    photo_id: int | None = Field(default=None, foreign_key="photos_photo.id")
    at: datetime
    ended_on: date | None = None
    """the day its surface was opened up again: from then on the line is only history"""


class Cover(Table, table=True):
    """A surface was closed: when, by whom, and the evidence it rested on, frozen."""

    __tablename__ = "surfaces_cover"
    surface_id: int = Field(foreign_key="surfaces_surface.id", index=True)
    covered_on: date
    who: str = Field(default="me", max_length=80)
    layers: str = ""
    evidence: str
    """JSON list of [what, who said so, when] as it stood"""
    at: datetime
    extent: str = Field(default="", max_length=120)
    """which part of the surface: the lower half; empty for all of it"""
    not_cleared: str = "[]"
    """JSON list of [what, where it stood, key in the graph of needs] that was still owed: it was covered by mistake;
    empty where it was not"""
    cleared_on: date | None = None
    """the day all that had been owed of a covering by mistake was settled"""
    task_id: int | None = Field(default=None, foreign_key="plan_task.id")
    """the work of asking, opening up or putting right: its hours and cost are that task's"""
    opened_on: date | None = None
    opened_why: str = ""


class CoverStep(Table, table=True):
    """A step on the way out after a covering by mistake: asked whom, what was answered, opened, looked at."""

    __tablename__ = "surfaces_cover_step"
    __table_args__ = (one_of("kind", CoverStepKind),)
    cover_id: int = Field(foreign_key="surfaces_cover.id", index=True)
    kind: str
    on_day: date
    who: str = Field(default="", max_length=80)
    words: str = ""
    photo_id: int | None = Field(default=None, foreign_key="photos_photo.id")
    at: datetime


class SurfaceChange(Table, table=True):
    """What was said of a surface, or of what belongs to it, before it was put right."""

    __tablename__ = "surfaces_change"
    __table_args__ = (
        one_of("what_kind", ("surface", "item", "slot", "question", "cover", "opening", "run", "line", "tie")),
        Index("ix_surfaces_change_what", "what_kind", "what_id"),
    )
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    what_kind: str
    what_id: int
    field: str = Field(max_length=40)
    was: str
    became: str
    why: str = ""
    at: datetime
