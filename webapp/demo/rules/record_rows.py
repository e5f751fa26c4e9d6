"""Rows of the scenario about what was done and paid: pictures, footage, days, hours and money."""

from dataclasses import dataclass

from webapp.demo.rules.cells import (
    Answer,
    Day,
    MaybeClock,
    MaybeDay,
    MaybeLength,
    MaybeWhole,
    Several,
    Surfaces,
    Whole,
    Words,
)


@dataclass(frozen=True)
class Shot:
    """A shot to film or filmed."""

    id: Words
    task: Words
    surface: Surfaces
    what: Words
    once: Answer
    strength: Words
    state: Words
    filmed_day: MaybeDay
    where_it_lies: Words
    files: Words
    seconds: MaybeWhole
    note: Words


@dataclass(frozen=True)
class PictureSlot:
    """A picture owed before a surface is closed."""

    id: Words
    surface: Words
    picture_set: Words
    what: Words
    strength: Words
    state: Words
    filled_by: Words


@dataclass(frozen=True)
class Picture:
    """A picture; `taken_day` is None where nobody knows."""

    id: Words
    surface: Words
    item: Words
    slot: Words
    taken_day: MaybeDay
    taken_time: MaybeClock
    taken_from: Words
    received_day: Day
    stage: Words
    caption: Words
    private: Words
    public: Words
    same_as: Words
    replaced_by: Words


@dataclass(frozen=True)
class Workday:
    """A day on the build or lost to it; minutes by whose hands."""

    id: Words
    day: Day
    weather: Words
    self_min: Whole
    unpaid_helper_min: Whole
    paid_helper_min: Whole
    hired_min: Whole
    lost: Answer
    note: Words
    stopped_by: Words
    next: Words


@dataclass(frozen=True)
class WorkEntry:
    """Minutes of one pair of hands on one task on one day."""

    id: Words
    workday: Words
    day: Day
    task: Words
    who: Words
    minutes: Whole


@dataclass(frozen=True)
class Supplier:
    """Somebody money goes to."""

    id: Words
    name: Words
    kind: Words
    usual_lead_days: Whole
    returns: Words


@dataclass(frozen=True)
class Receipt:
    """A receipt; its spend lines add up to it."""

    id: Words
    day: Day
    supplier: Words
    order: Words
    lines: Whole
    net_cents: Whole
    tax_cents: Whole
    total_cents: Whole
    file: Words


@dataclass(frozen=True)
class Spend:
    """One line of spending; a negative quantity is a return."""

    id: Words
    receipt: Words
    day: Day
    project: Words
    supplier: Words
    kind: Words
    desc: Words
    phase: Words
    task: Words
    goods: Words
    order: Words
    qty: Whole
    unit_price_cents: Whole
    net_cents: Whole
    taxable: Answer
    tax_cents: Whole
    total_cents: Whole
    value_cents: MaybeWhole
    split_group: Words
    refund_state: Words
    paper: Words
    note: Words


@dataclass(frozen=True)
class Sketch:
    """How a picture is drawn: a surface around a point (`wide_nm` across; the whole of it if None), or a drawing.

    `look` holds words for `Frame`, `beside` things placed on the surface as `name@x,y` or `name@x,y,length`.
    """

    picture: Words
    drawing: Words
    x_nm: MaybeLength
    y_nm: MaybeLength
    wide_nm: MaybeLength
    look: Several
    beside: Several
