"""A full wall: sixty hidden things and forty runs, as crowded as a kitchen wall gets."""

import random

from sqlmodel import Session

from tests import builders
from tests.builders import INCH
from webapp.plan.models import Build
from webapp.surfaces.models import Surface

CODE, THINGS, RUNS = "FULL", 60, 40
KINDS = (
    ("receptacle", "electric", None),
    ("switch", "electric", None),
    ("light box", "electric", None),
    ("data box", "data", None),
    ("nail plate", "electric", None),
    ("blocking", "framing", 14),
    ("stub-out", "water", None),
    ("duct", "air", 6),
    ("strap", "framing", 6),
)
LENGTH, HEIGHT = 264, 108
DOOR, WINDOW = (200, 0, 38, 82), (60, 40, 48, 36)


def spot(drawn: random.Random) -> tuple[int, int]:
    """In inches, in no opening."""
    while True:
        x, y = drawn.randrange(2, LENGTH - 2), drawn.randrange(5, HEIGHT - 6)
        if not any(left < x < left + wide and low < y < low + high for left, low, wide, high in (DOOR, WINDOW)):
            return x, y


def a_full_wall(session: Session, build: Build, position: int) -> Surface:
    """The same wall each time."""
    drawn = random.Random(7)
    wall = builders.a_surface(
        session,
        build,
        CODE,
        "Full wall",
        position=position,
        length_nm=LENGTH * INCH,
        height_nm=HEIGHT * INCH,
        origin_corner="NE",
        spacing_nm=16 * INCH,
        first_stud_nm=12 * INCH,
    )
    for kind, (x, y, wide, high) in (("door", DOOR), ("window", WINDOW)):
        size = {"x_nm": x * INCH, "y_nm": y * INCH, "width_nm": wide * INCH, "height_nm": high * INCH}
        builders.an_opening(session, wall, kind.capitalize(), kind=kind, **size)
    lines = [builders.a_line(session, build, f"F{number:02}", position=number) for number in range(1, 13)]
    places = [spot(drawn) for _ in range(THINGS)]
    for number, (x, y) in enumerate(places):
        kind, service, width = KINDS[number % len(KINDS)]
        more = {"kind": kind, "service": service, "x_nm": x * INCH, "y_nm": y * INCH}
        builders.an_item(session, wall, f"{kind.capitalize()} {number}", width_nm=width and width * INCH, **more)
    for number in range(RUNS):
        (x1, y1), (x2, y2) = drawn.sample(places, 2)
        high = drawn.choice((84, 88, 90, 92, 96, 100))
        line, service = lines[number % len(lines)], ("electric", "electric", "water", "data")[number % 4]
        bends = ((x1, y1), (x1, high), (x2, high), (x2, y2))
        builders.a_run(session, wall, *bends, label=f"Run {number}", line_id=line.row_id, service=service)
    return wall
