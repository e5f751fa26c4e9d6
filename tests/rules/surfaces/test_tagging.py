"""Each thing has a short name in the drawing, and each wall both its corners."""

from dataclasses import dataclass
from datetime import date

import pytest

from webapp.surfaces.rules.tagging import face_of, things_of

INCH = 25_400_000


@dataclass(frozen=True)
class AnItem:
    id: int
    x: int | None
    y: int | None = 16
    kind: str = "receptacle"
    service: str = "electric"
    label: str = "A thing"
    width_nm: int | None = None
    replaced_on: date | None = None
    from_picture: bool = False

    @property
    def x_nm(self) -> int | None:
        return None if self.x is None else self.x * INCH

    @property
    def y_nm(self) -> int | None:
        return None if self.y is None else self.y * INCH


@dataclass(frozen=True)
class AWall:
    origin_corner: str
    facing: str
    length_nm: int | None = 161 * INCH
    height_nm: int | None = 109 * INCH
    code: str = "E"
    name: str = "East wall"
    kind: str = "wall"
    spacing_nm: int | None = None
    first_stud_nm: int | None = None
    far_corner: str = ""


def test_tags_count_by_service_from_the_corner_on():
    water = {"service": "water", "kind": "stub-out"}
    things = things_of([AnItem(1, 60), AnItem(2, 14), AnItem(3, 20, **water), AnItem(4, 30, kind="blocking")])
    assert {thing.id: thing.tag for thing in things} == {2: "E1", 1: "E2", 3: "W1", 4: "BL1"}


def test_what_was_moved_takes_no_tag_from_what_is_there():
    things = things_of([AnItem(1, 5, replaced_on=date(2026, 5, 1)), AnItem(2, 60)])
    assert [(thing.tag, thing.replaced) for thing in things] == [("E1", False), ("E2", True)]


def test_what_has_no_offset_cannot_be_drawn():
    assert things_of([AnItem(1, None), AnItem(2, 5, None)]) == ()


@pytest.mark.parametrize(
    ("corner", "facing", "far"),
    [("NE", "E", "SE"), ("SE", "E", "NE"), ("ne", "E", "SE"), ("by the door", "E", ""), ("NE", "", "")],
)
def test_the_far_corner_is_the_other_one_of_the_wall(corner, facing, far):
    assert face_of(AWall(corner, facing), "ft-in").far_corner == far


@pytest.mark.parametrize("missing", [{"length_nm": None}, {"height_nm": None}, {"height_nm": 0}])
def test_a_wall_without_its_size_is_not_drawn(missing):
    assert face_of(AWall("NE", "E", **missing), "ft-in") is None


def test_a_far_corner_that_was_named_is_the_one_drawn():
    face = face_of(AWall("NW", "", kind="ceiling", far_corner="NE"), "ft-in")
    assert face is not None and face.far_corner == "NE"
