"""No-screw bands by hand: where they begin and end, what they are called, what lies off the usual ways."""

import pytest

from tests.builders import INCH
from tests.walls import WALL, a_run, a_thing
from webapp.surfaces.rules.bands import MARGIN_NM, PLATE_DEPTH_NM, bands, box_words, doing, groups, run_name
from webapp.surfaces.rules.elevation import Facts
from webapp.surfaces.rules.extent import Box
from webapp.surfaces.rules.face import Face
from webapp.surfaces.rules.fixing import fixings
from webapp.surfaces.rules.kinds import SurfaceKind

BOX = a_thing("receptacle", 60, 16)


def test_a_band_is_the_line_its_width_and_two_inches_to_each_side():
    """Half a cable of 1/2 in and 2 in of margin (common practice, no source)."""
    (band,) = bands(Facts(WALL, (), (), (a_run((16, 24), (16, 60)),)))
    assert band.box == Box(*(int(at * INCH) for at in (13.75, 21.75, 18.25, 62.25)))
    assert MARGIN_NM == 2 * INCH
    assert box_words(WALL, band.box).replace("\xa0", " ") == "1′ 1¾″ to 1′ 6¼″ along, 1′ 9¾″ to 5′ 2¼″ up"


def test_the_depth_that_wants_a_plate_is_that_of_the_code():
    """NEC 300.4(A)(1) and (D): 1 1/4 in from the nearest edge of the framing member."""
    assert PLATE_DEPTH_NM * 4 == 5 * INCH


@pytest.mark.parametrize(
    ("points", "service", "usual"),
    [
        (((28, 16), (28, 100)), "electric", True),  # a stud stands at 12 + 16
        (((20, 16), (20, 100)), "electric", False),  # in the middle of a bay
        (((60, 16), (60, 100)), "electric", True),  # straight up from the box
        (((10, 20), (100, 20)), "electric", True),  # level with the box
        (((10, 70), (100, 70)), "electric", False),  # level where no box is
        (((28, 16), (60, 40)), "electric", False),  # slanted
        (((28, 16), (28, 100)), "water", False),  # no pipe is where one looks for it
    ],
)
def test_a_cable_is_usual_along_a_stud_and_in_line_with_a_box(points, service, usual):
    (band,) = bands(Facts(WALL, (), (BOX,), (a_run(*points, service=service),)))
    assert band.usual is usual


def test_what_can_be_seen_on_the_finished_face_has_no_band_of_its_own():
    seen = (BOX, a_thing("light box", 90, 80), a_thing("blocking", 30, 60, service="framing"), a_thing("nail plate"))
    assert bands(Facts(WALL, (), seen, ())) == ()
    hidden = (a_thing("junction box", 90, 80), a_thing("stub-out", 30, 20, service="water"))
    assert [band.name for band in bands(Facts(WALL, (), hidden, ()))] == ["Junction box", "Stub-out"]


def test_one_circuit_is_one_line_of_the_list_with_its_plates():
    run = a_run((60, 16), (60, 24), (100, 24), (100, 16))
    plate = a_thing("nail plate", 76, 24, label="Plate over the cable")
    facts = Facts(WALL, (), (BOX, plate), (run,))
    (group,) = groups(facts, bands(facts))
    assert (group.name, len(group.boxes), [one.label for one in group.plates]) == (
        "C02 cable",
        3,
        ["Plate over the cable"],
    )


def test_a_band_goes_on_though_a_plate_protects_it():
    bare = Facts(WALL, (), (), (a_run((10, 24), (100, 24)),))
    plated = Facts(WALL, (), (a_thing("nail plate", 44, 24),), bare.runs)
    assert bands(plated) == bands(bare)


def test_what_nobody_looks_for_is_listed_first():
    runs = (a_run((28, 16), (28, 100)), a_run((40, 50), (90, 50), label="Cold, 1/2 in", service="water", tag="CW"))
    facts = Facts(WALL, (), (), runs)
    assert [(group.name, group.usual) for group in groups(facts, bands(facts))] == [
        ("CW pipe", False),
        ("C02 cable", True),
    ]


@pytest.mark.parametrize(
    ("label", "service", "tag", "name"),
    [
        ("Bench, 12-2", "electric", "C02", "C02 cable"),
        ("Feeder, 6-6-6-10 in conduit", "electric", "FDR", "FDR conduit"),
        ("Heat pump line set", "air", "LS", "LS line set"),
        ("Extractor duct, 6 in", "air", "DX", "DX duct"),
        ("Sink drain, 2 in", "drain", "DR", "DR pipe"),
        ("Old bell wire", "data", "", "Old bell wire"),
    ],
)
def test_a_run_is_called_by_its_line(label, service, tag, name):
    assert run_name(a_run((0, 0), (1, 0), label=label, service=service, tag=tag)) == name


def test_the_whole_length_and_height_are_said_as_such():
    assert box_words(WALL, Box(0, 0, WALL.length_nm, 4 * INCH)) == "the whole length, 0″ to 4″\xa0up"
    assert box_words(WALL, Box(INCH, 0, 2 * INCH, WALL.height_nm)) == "1″ to 2″\xa0along, the whole height"
    metric = Face("S", "Slab", SurfaceKind.SLAB, 6_000_000_000, 4_000_000_000, "NW", "", None, None, "mm")
    said = box_words(metric, Box(1_001_000_000, 0, 1_099_000_000, 10))
    assert said == "1000 mm to 1100 mm\xa0along, 0 mm to 5 mm\xa0across"


def test_what_not_to_do_depends_on_the_surface():
    assert [doing(kind) for kind in ("wall", "ceiling", "slab", "trench")] == [
        "No screws",
        "No screws",
        "Do not drill",
        "Do not dig",
    ]


def test_blocking_says_from_where_to_where_it_may_be_fixed_to():
    """On a wall with studs at 12 + 16 n the boards between 44 and 76 in are one stretch with the stud between them."""
    cleat = a_thing("blocking", 60, 66, service="framing", width_nm=32 * INCH, label="Coat-rail blocking, 2x6")
    (one,) = fixings(Facts(WALL, (), (cleat,), ()))
    assert one.where.replace("\xa0", " ") == "3′ 8¾″ to 6′ 3¼″ along, 5′ 3¼″ to 5′ 8¾″ up"
