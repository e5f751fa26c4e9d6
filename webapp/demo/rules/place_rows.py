"""Rows of the scenario about the place: surfaces and what is, or will be, hidden in them."""

from dataclasses import dataclass

from webapp.demo.rules.cells import (
    Answer,
    Length,
    MaybeAnswer,
    MaybeDay,
    MaybeExact,
    MaybeLength,
    MaybeWhole,
    Points,
    Several,
    Whole,
    Words,
)


@dataclass(frozen=True)
class Surface:
    """A thing that gets closed up; sizes as framed, before board."""

    id: Words
    name: Words
    kind: Words
    length_nm: Length
    height_nm: Length
    origin_corner: Words
    far_corner: Words
    view: Words
    framing: Words
    spacing_nm: MaybeLength
    first_stud_nm: MaybeLength
    bearing: Answer
    closed_by: Words
    closed_by_task: Words
    state: Words
    closed_day: MaybeDay
    boxes_counted_before: MaybeWhole
    boxes_counted_after: MaybeWhole
    note: Words


@dataclass(frozen=True)
class Opening:
    """A window, door or hatch; x and y are its lower left corner."""

    id: Words
    surface: Words
    kind: Words
    name: Words
    x_nm: Length
    y_nm: Length
    width_nm: Length
    height_nm: Length
    jacks_each_side: MaybeWhole
    kings_each_side: MaybeWhole
    header: Words
    state: Words


@dataclass(frozen=True)
class Tie:
    """A point along a trench or slab, and how far it is from two fixed points."""

    id: Words
    surface: Words
    name: Words
    x_nm: Length
    from_a: Words
    a_nm: Length
    from_b: Words
    b_nm: Length
    note: Words


@dataclass(frozen=True)
class Service:
    """A circuit, pipe or duct with the colour and letter it is drawn in."""

    id: Words
    kind: Words
    colour: Words
    letter: Words
    name: Words
    spaces: Words
    """in the panel: 7, or 7-9 for two poles"""
    breaker_a: MaybeWhole
    cable: Words
    room: Words
    note: Words


@dataclass(frozen=True)
class Item:
    """One thing hidden in a surface; x and y are its centre, measured from `from_corner` and the floor."""

    id: Words
    surface: Words
    service: Words
    kind: Words
    label: Words
    from_corner: Words
    x_nm: Length
    y_nm: Length
    width_nm: MaybeLength
    gangs: MaybeWhole
    material: Words
    box_in3: MaybeExact
    cables: Several
    devices: Several
    clamps: MaybeAnswer
    first_staple_nm: MaybeLength
    access: Words
    state: Words
    note: Words


@dataclass(frozen=True)
class Run:
    """One stretch of cable, pipe or duct on one surface, as points along it."""

    id: Words
    seg: Whole
    service: Words
    cable: Words
    from_item: Words
    to_item: Words
    surface: Words
    points: Points
    max_staple_gap_nm: MaybeLength
    state: Words
    note: Words
