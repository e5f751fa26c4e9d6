"""Which pictures a surface owes, from what is on it: the whole, its stretches, boxes, runs, plates, tests, insulation.

What is listed and how many is common practice, no source, except where a line says otherwise. Each picture has a key
that stays, so that nothing is asked for twice, and is a must or a wish until the builder decides.
"""

from collections.abc import Iterator

from webapp.surfaces.rules.kinds import LineKind, SurfaceKind
from webapp.surfaces.rules.stretches import Stretch, stretches
from webapp.surfaces.rules.wanted import AFTER, BEFORE, MUST, WISH, Hidden, OnSurface, OwedPicture
from webapp.values.words import join_words

MOST_SINGLE_BOXES = 12
"""with more boxes than this, those of one stretch share a picture"""
UPRIGHT = {SurfaceKind.WALL, SurfaceKind.OUTSIDE}
GROUND = {SurfaceKind.TRENCH, SurfaceKind.SLAB}
INSULATED = {SurfaceKind.WALL, SurfaceKind.CEILING, SurfaceKind.FLOOR}
PANELS, PLATES = {"panel", "sub-panel"}, {"nail plate", "shield plate"}
TIED = {"strap", "hanger", "tie", "hold-down", "anchor bolt"}
SHUTS = {"valve", "shut-off", "cleanout"}
HOLES = {"sleeve", "plate hole", "conduit entry"}
EACH_BOX = ("each box", "every box", "all boxes", "boxes")
PIPES = {"water", "drain", "vent", "gas", "air"}
ALL = Stretch(1, 1, "", "", 0, 0)
TURNS = {"bend", "crossing", "cap"}
THROUGH_SLAB = HOLES | {"stub-out", "pipe end", "cleanout", "conduit", "duct boot"}
NOUN = {
    SurfaceKind.WALL: "wall",
    SurfaceKind.OUTSIDE: "face",
    SurfaceKind.CEILING: "ceiling",
    SurfaceKind.FLOOR: "floor",
    SurfaceKind.SLAB: "slab",
    SurfaceKind.TRENCH: "trench",
}
RUNS = {
    "electric": "Cables, their staples and where they go through studs",
    "data": "Network and signal cables",
    "water": "Water pipes, tape from the corner and the floor",
    "drain": "Drain pipes, tape from the corner and the floor",
    "vent": "Vent pipe up to where it leaves, tape from the corner",
    "gas": "Gas pipe, tape from the corner and the floor",
    "air": "Duct or line set and its joints, tape from the corner",
}
RUN_SIGNS = {
    "electric": ("cables",),
    "data": ("network", "camera drop"),
    "water": ("pipes", "supply"),
    "drain": ("pipes", "drain"),
    "vent": ("pipes", "vent"),
    "gas": ("gas",),
    "air": ("duct", "line set"),
}
TESTS = {
    "water": ("Test of the water pipes: gauge in view, a card with the day beside it", ("gauge", "water test")),
    "drain": ("Test of drain and vent: the gauge or the standing water in view", ("gauge", "drain test")),
    "gas": ("Test of the gas pipe: gauge in view, a card with the day beside it", ("gauge", "gas test")),
}


def owed_pictures(on: OnSurface) -> tuple[OwedPicture, ...]:
    """Every picture owed of it, in the order one would take them."""
    if on.kind == SurfaceKind.TRENCH:
        return tuple(_of_trench(on))
    if on.kind == SurfaceKind.SLAB:
        return tuple(_of_slab(on))
    return (*_of_framed(on), *(_insulated(on) if on.kind in INSULATED else ()))


def item_words(thing: Hidden) -> tuple[str, str, tuple[str, ...]] | None:
    """What a picture of this one thing has to show, its strength and its signs; None where it has none of its own."""
    label = thing.label
    if thing.kind in PANELS:
        return f"{label}: open, cables and the ground bar showing", MUST, ("panel", label)
    if thing.is_box and thing.service == "electric":
        return f"{label}: box open, grounds showing", MUST, (*EACH_BOX, label)
    if thing.is_box:
        return f"{label}: box with its cable", WISH, (*EACH_BOX, label)
    if thing.kind in SHUTS:
        return f"{label}, tape from the corner and the floor", MUST, ("shut-off", label)
    return None


def group_keys(thing: Hidden) -> frozenset[str]:
    """Keys, or what stands before their colon, of the pictures that show all of its kind, this thing among them."""
    if thing.is_box:
        return frozenset({"boxes"})
    kinds = (("plates", PLATES), ("straps", TIED), ("holes", HOLES), ("blocking", {"blocking"}))
    found = {key for key, of_kind in (*kinds, ("fireblocks", {"fireblock"})) if thing.kind in of_kind}
    return frozenset(found | ({f"runs:{thing.service}"} if thing.service in PIPES and not found else set()))


def _whole(on: OnSurface) -> Iterator[OwedPicture]:
    noun = NOUN[on.kind]
    where = {SurfaceKind.CEILING: "tape across it", SurfaceKind.FLOOR: "bays left to right, tape along it"}
    yield OwedPicture("whole", f"Whole {noun}, {where.get(on.kind, 'tape along the floor')}", signs=("whole",))
    yield from _parts(on, MUST)


def _parts(on: OnSurface, strength: str) -> Iterator[OwedPicture]:
    for part in stretches(on.kind, on.length_nm, on.unit, on.origin, on.far):
        yield OwedPicture(
            key=f"third:{part.number}",
            what=part.words,
            strength=strength,
            signs=("half", "third", "middle", "stretch", "part"),
            names=part.name,
            place=part.number,
            places=part.of,
        )


def _boxes(on: OnSurface) -> Iterator[OwedPicture]:
    single = [thing for thing in on.things if item_words(thing) and not (thing.is_box and thing.kind not in PANELS)]
    boxes = [thing for thing in on.things if thing.is_box and thing.kind not in PANELS]
    for thing in single + (boxes if len(boxes) <= MOST_SINGLE_BOXES else []):
        yield _of_item(thing)
    if len(boxes) > MOST_SINGLE_BOXES:
        yield from _boxes_by_stretch(on, boxes)


def _of_item(thing: Hidden) -> OwedPicture:
    what, strength, signs = item_words(thing) or (thing.label, MUST, (thing.label,))
    return OwedPicture(f"item:{thing.id}", what, strength, item_id=thing.id, signs=signs, names=thing.named)


def _boxes_by_stretch(on: OnSurface, boxes: list[Hidden]) -> Iterator[OwedPicture]:
    for part in stretches(on.kind, on.length_nm, on.unit, on.origin, on.far) or (ALL,):
        here = [box.named for box in boxes if box.x_nm is not None and part.holds(box.x_nm)]
        if here:
            where = f" of the {part.name}" if part.name else ""
            what = f"Boxes{where}, open, grounds showing"
            yield OwedPicture(f"boxes:{part.number}", what, signs=EACH_BOX, names=join_words(here))
    if any(box.x_nm is None for box in boxes):
        yield OwedPicture("boxes:0", "Boxes not measured yet, open", signs=EACH_BOX)


def _runs(on: OnSurface) -> Iterator[OwedPicture]:
    for service, what in RUNS.items():
        if service in on.services:
            strength = WISH if service == "data" else MUST
            yield OwedPicture(f"runs:{service}", what, strength, signs=RUN_SIGNS[service], names=f"{service} runs")


def _group(key: str, things: tuple[Hidden, ...], what: str, *signs: str) -> Iterator[OwedPicture]:
    """One picture for all of a kind. Its words name none of them: tags move up as things are added."""
    if things:
        yield OwedPicture(key, what, signs=signs, names=join_words([thing.named for thing in things]))


def _metal_and_wood(on: OnSurface) -> Iterator[OwedPicture]:
    yield from _group("plates", on.of_kind(PLATES), "Nail plates, all in view", "plates")
    tape = "its heights" if on.kind in UPRIGHT else "where it is"
    yield from _group("blocking", on.of_kind({"blocking"}), f"Blocking, a tape showing {tape}", "blocking")
    yield from _group("straps", on.of_kind(TIED), "Straps and ties with their nails", "strap", "straps", "hangers")
    yield from _group("fireblocks", on.of_kind({"fireblock"}), "Fireblocks in their places", "fireblock", "fireblocks")
    yield from _group("holes", on.of_kind(HOLES), "Holes and sleeves, sealed, tape beside", "sleeve", "holes")


def _openings(on: OnSurface) -> Iterator[OwedPicture]:
    outside = on.kind == SurfaceKind.OUTSIDE
    for opening_id, kind, name in on.openings:
        if kind in {"window", "door"}:
            what = f"{name}: flashing, its laps in view" if outside else f"{name}: flashing and gap, seen from inside"
            signs = (name, f"{kind} with flashing", "flashing")
            yield OwedPicture(f"opening:{opening_id}", what, MUST if outside else WISH, signs=signs, names=name)


def _tests(on: OnSurface) -> Iterator[OwedPicture]:
    there = {"drain" if service == "vent" else service for service in on.services}
    for service, (what, signs) in TESTS.items():
        if service in there:
            yield OwedPicture(f"test:{service}", what, signs=signs, names=f"{service} test")


def _of_framed(on: OnSurface) -> Iterator[OwedPicture]:
    yield from _whole(on)
    yield from _boxes(on)
    yield from _runs(on)
    yield from _metal_and_wood(on)
    yield from _openings(on)
    yield from _tests(on)


def _insulated(on: OnSurface) -> Iterator[OwedPicture]:
    noun = NOUN[on.kind]
    whole = f"Whole {noun} after insulation, tape in it"
    yield OwedPicture("after:whole", whole, picture_set=AFTER, signs=("whole", "batts"))
    boxes, pipes = any(thing.is_box for thing in on.things), bool(on.services & PIPES)
    if at := [words for words, there in (("openings", on.openings), ("boxes", boxes), ("pipes", pipes)) if there]:
        what = f"Vapour retarder, if there is one: its seams, and at {join_words(at)}"
        yield OwedPicture("after:retarder", what, picture_set=AFTER, signs=("retarder",))
    yield OwedPicture("after:label", "Label of the insulation, readable", WISH, AFTER, signs=("label", "r-value"))


def _of_slab(on: OnSurface) -> Iterator[OwedPicture]:
    yield OwedPicture("whole", "Whole form before the pour, tape along it", signs=("whole",))
    yield from _parts(on, MUST)
    for thing in on.of_kind(THROUGH_SLAB):
        what = f"{thing.label}, tape from two edges"
        yield OwedPicture(f"item:{thing.id}", what, item_id=thing.id, signs=(thing.label,), names=thing.named)
    yield from _runs(on)
    yield from _ties(on)
    yield from _tests(on)
    yield OwedPicture("membrane", "Vapour barrier: laps and taped seams", WISH, signs=("barrier", "membrane"))
    yield OwedPicture("rebar", "Reinforcement: laps and chairs, tape beside", WISH, signs=("rebar", "mesh"))


def _of_trench(on: OnSurface) -> Iterator[OwedPicture]:
    near, far = on.origin or "near", on.far or "far"
    yield OwedPicture("whole", "Whole trench, tape along its length, from one end", signs=("whole",))
    yield OwedPicture("whole:far", "Whole trench from its other end", WISH, signs=("both ends",))
    yield from _parts(on, WISH)
    for place, (key, end) in enumerate((("near", near), ("far", far)), 1):
        what = f"Depth with a rod in view, {end} end"
        yield OwedPicture(f"depth:{key}", what, signs=("depth",), names=f"depth, {end} end", place=place, places=2)
    for thing in on.of_kind(TURNS):
        what = f"{thing.label}, depth and tape beside it"
        yield OwedPicture(
            f"item:{thing.id}", what, item_id=thing.id, signs=(thing.label, thing.kind), names=thing.named
        )
    yield from _laid(on)
    yield from _ties(on)
    yield from _tests(on)


def _laid(on: OnSurface) -> Iterator[OwedPicture]:
    tape = LineKind.WARNING_TAPE in on.lines or bool(on.of_kind({"warning tape"}))
    what = "Warning tape in its place, before the last fill"
    yield OwedPicture("tape", what, MUST if tape else WISH, signs=("warning tape",), names="warning tape")
    if LineKind.TRACER in on.lines or on.of_kind({"tracer wire"}):
        yield OwedPicture("tracer", "Tracer wire along the pipe, and where it comes up", signs=("tracer",))


def _ties(on: OnSurface) -> Iterator[OwedPicture]:
    for tie_id, name, one, other in on.ties:
        what = f"{name}: tape to {one} and to {other}"[:200]
        yield OwedPicture(f"tie:{tie_id}", what, signs=(name,), names=name)


def set_words(kind: str, picture_set: str) -> str:
    """When a picture of this set is taken, in the words of its surface: before backfill, after insulation."""
    if picture_set == BEFORE and kind in GROUND:
        return "before backfill" if kind == SurfaceKind.TRENCH else "before the pour"
    return {BEFORE: "before insulation", AFTER: "after insulation"}.get(picture_set, "in general")
