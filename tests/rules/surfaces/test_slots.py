"""Which pictures a surface owes. How many and which are common practice, no source, unless a line says otherwise."""

from dataclasses import dataclass, replace
from datetime import date

import pytest

from webapp.surfaces.rules.kinds import LineKind, SurfaceKind
from webapp.surfaces.rules.offers import compare
from webapp.surfaces.rules.slots import group_keys, owed_pictures, set_words
from webapp.surfaces.rules.stretches import how_many, stretches
from webapp.surfaces.rules.wanted import Hidden, OnSurface
from webapp.values.length import NM_PER_FOOT, NM_PER_M

INCH = 25_400_000
BOX = Hidden(7, "E1", "East receptacle", "receptacle", "electric", is_box=True, x_nm=20 * INCH)
EAST = OnSurface(SurfaceKind.WALL, 161 * INCH, "ft-in", "NE", "SE")


@dataclass(frozen=True)
class Line:
    """A picture on the builder's list."""

    number: int = 1
    what: str = "Whole wall"
    picture_set: str = "before"
    photo_id: int | None = None
    made_from: str = ""
    ended_on: date | None = None


def keys(on: OnSurface) -> list[str]:
    return [picture.key for picture in owed_pictures(on)]


def picture(on: OnSurface, key: str):
    return next(one for one in owed_pictures(on) if one.key == key)


@pytest.mark.parametrize(
    ("kind", "length", "unit", "count"),
    [
        (SurfaceKind.WALL, 6 * NM_PER_FOOT, "ft-in", 1),
        (SurfaceKind.WALL, 6 * NM_PER_FOOT + 1, "ft-in", 2),
        (SurfaceKind.WALL, 22 * NM_PER_FOOT, "ft-in", 4),
        (SurfaceKind.WALL, 4 * NM_PER_M, "mm", 2),
        (SurfaceKind.TRENCH, 58 * NM_PER_FOOT, "ft-in", 3),
        (SurfaceKind.WALL, 400 * NM_PER_FOOT, "ft-in", 12),
    ],
)
def test_there_is_a_picture_for_each_six_feet_or_two_metres_of_a_wall(kind, length, unit, count):
    assert how_many(kind, length, unit) == count


def test_stretches_go_from_corner_to_corner_without_a_gap():
    parts = stretches(SurfaceKind.WALL, 161 * INCH, "ft-in", "NE", "SE")
    assert [part.words for part in parts] == [
        "First third: NE corner to 4′ 6″",
        "Middle third: 4′ 6″ to 9′ 0″",
        "Last third: 9′ 0″ to SE corner",
    ]
    assert [part.begin_nm for part in parts[1:]] == [part.end_nm for part in parts[:-1]]
    assert (parts[0].begin_nm, parts[-1].end_nm) == (0, 161 * INCH)
    assert sum(part.holds(161 * INCH) for part in parts) == 1


def test_a_bare_wall_owes_the_whole_its_thirds_and_both_again_after_insulation():
    assert keys(EAST) == ["whole", "third:1", "third:2", "third:3", "after:whole", "after:label"]
    assert keys(replace(EAST, length_nm=None)) == ["whole", "after:whole", "after:label"]


def test_each_box_has_a_picture_until_there_are_more_than_twelve_then_each_stretch_has():
    twelve = tuple(replace(BOX, id=at, tag=f"E{at}", x_nm=at * 10 * INCH) for at in range(1, 13))
    assert keys(replace(EAST, things=twelve)).count("whole") == 1
    assert [key for key in keys(replace(EAST, things=twelve)) if key.startswith("item:")] == [
        f"item:{at}" for at in range(1, 13)
    ]
    lost = replace(BOX, id=13, tag="", label="Box over the door", x_nm=None)
    more = replace(EAST, things=(*twelve, lost))
    assert [key for key in keys(more) if "box" in key or "item" in key] == ["boxes:1", "boxes:2", "boxes:3", "boxes:0"]
    assert picture(more, "boxes:2").names == "E6, E7, E8, E9 and E10"


def test_pipes_owe_their_run_and_a_test_with_the_gauge_in_view():
    on = replace(EAST, services=frozenset({"water", "vent", "electric"}))
    assert {"runs:water", "runs:vent", "runs:electric", "test:water", "test:drain"} <= set(keys(on))
    assert "gauge in view" in picture(on, "test:water").what
    assert "test:electric" not in keys(on)


def test_plates_blocking_straps_and_shut_offs_are_asked_for_where_they_are():
    kinds = ("nail plate", "shield plate", "blocking", "strap", "fireblock", "sleeve", "valve")
    things = tuple(Hidden(at, f"T{at}", kind.title(), kind, "other", False, at * INCH) for at, kind in enumerate(kinds))
    found = keys(replace(EAST, things=things))
    assert {"plates", "blocking", "straps", "fireblocks", "holes", "item:6"} <= set(found)
    assert found.count("plates") == 1
    assert picture(replace(EAST, things=things), "plates").names == "T0 and T1"


def test_the_retarder_is_asked_for_where_something_goes_through_it():
    assert "after:retarder" not in keys(EAST)
    words = picture(replace(EAST, openings=((1, "door", "Entry"),), things=(BOX,)), "after:retarder").what
    assert words == "Vapour retarder, if there is one: its seams, and at openings and boxes"


def test_flashing_seen_from_inside_is_a_wish_and_from_outside_a_must():
    window = ((3, "window", "East window"),)
    outside = OnSurface(SurfaceKind.OUTSIDE, 161 * INCH, "ft-in", openings=window)
    assert picture(replace(EAST, openings=window), "opening:3").strength == "wish"
    assert picture(outside, "opening:3").strength == "must"
    assert not any(key.startswith("after") for key in keys(outside))


def test_a_trench_owes_its_length_depth_at_both_ends_tape_tracer_and_ties():
    """ "tape to top of pipe/cable, both ends, bends, ... warning ribbon, distance to a fixed corner": trade advice on
    pictures before backfill, common practice."""
    trench = OnSurface(
        SurfaceKind.TRENCH,
        58 * NM_PER_FOOT,
        "ft-in",
        "house wall",
        lines=frozenset({LineKind.WARNING_TAPE, LineKind.TRACER}),
        things=(Hidden(4, "E1", "Bend by the door", "bend", "electric", False, INCH),),
        ties=((2, "The bend", "house corner", "gate post"),),
    )
    found = keys(trench)
    assert [key for key in found if key.startswith("depth")] == ["depth:near", "depth:far"]
    assert {"whole", "whole:far", "tape", "tracer", "tie:2", "item:4"} <= set(found)
    assert "with a rod in view" in picture(trench, "depth:near").what
    assert picture(trench, "tie:2").what == "The bend: tape to house corner and to gate post"
    assert picture(trench, "tape").strength == "must"
    assert not any(key.startswith("after") for key in found)


def test_a_slab_owes_its_form_and_each_pipe_through_it_before_the_pour():
    stub = Hidden(9, "D1", "Drain stub", "stub-out", "drain", is_box=False, x_nm=INCH)
    slab = OnSurface(SurfaceKind.SLAB, 60 * INCH, "ft-in", things=(stub,), services=frozenset({"drain"}))
    assert "before the pour" in picture(slab, "whole").what
    assert picture(slab, "item:9").what == "Drain stub, tape from two edges"
    assert "test:drain" in keys(slab)


def test_sets_are_called_by_what_hides_them():
    assert set_words("trench", "before") == "before backfill"
    assert set_words("slab", "before") == "before the pour"
    assert set_words("wall", "after") == "after insulation"


def test_every_key_is_there_once_and_fits_its_column():
    things = tuple(replace(BOX, id=at, x_nm=at * INCH) for at in range(30))
    for kind in SurfaceKind:
        found = keys(OnSurface(kind, 700 * INCH, "ft-in", things=things, services=frozenset({"gas", "air"})))
        assert len(found) == len(set(found))
        assert max(map(len, found)) <= 40


def test_what_is_on_the_list_by_its_key_is_offered_no_more():
    offers = compare(owed_pictures(EAST), [Line(made_from="whole", what="Something else")], [])
    assert "whole" not in [offer.picture.key for offer in offers.open]
    assert len(offers.open) == 5


def test_a_line_of_my_own_that_says_the_same_is_named_and_does_not_count_as_missing():
    own = [Line(1, "Whole wall, tape along the floor"), Line(2, "Each box, grounds showing")]
    offers = compare(owed_pictures(replace(EAST, things=(BOX,))), own, [])
    shown = {offer.picture.key: offer.shown_by for offer in offers.open}
    assert (shown["whole"], shown["item:7"], shown["after:whole"], shown["third:1"]) == (1, 2, 0, 0)
    assert "item:7" not in [picture.key for picture in offers.missing]


def test_two_halves_of_my_own_stand_for_three_thirds():
    own = [Line(1, "West half, corner to window"), Line(2, "East half, window to corner")]
    offers = compare(owed_pictures(EAST), own, [])
    assert [offer.shown_by for offer in offers.open if offer.picture.places] == [1, 1, 2]


def test_what_was_declined_is_not_offered_again_but_what_was_taken_and_moved_is():
    day = date(2026, 5, 16)
    ended = [Line(made_from="third:1", ended_on=day), Line(made_from="after:label", ended_on=day, photo_id=3)]
    offers = compare(owed_pictures(EAST), [], ended)
    assert [picture.key for picture in offers.declined] == ["third:1"]
    assert "after:label" in [offer.picture.key for offer in offers.open]


def test_a_thing_is_in_the_picture_of_its_kind():
    assert group_keys(BOX) == {"boxes"}
    assert group_keys(Hidden(1, "", "Plate", "nail plate", "electric", is_box=False, x_nm=0)) == {"plates"}
    assert group_keys(Hidden(1, "", "Stub", "stub-out", "drain", is_box=False, x_nm=0)) == {"runs:drain"}
