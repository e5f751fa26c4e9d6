"""Rows of the scenario about the plan: phases, tasks, needs, permits, visits and what came of them."""

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
class BuildFact:
    """One fact about the build as a whole; `value` is text, `key` says which."""

    key: Words
    value: Words
    source: Words
    note: Words


@dataclass(frozen=True)
class Phase:
    """A part of the build, in the order the builder does them."""

    id: Words
    order: Whole
    title: Words
    purpose: Words


@dataclass(frozen=True)
class Task:
    """A piece of work; minutes are estimates, `actual_min` the sum of its entries, all hands; `dangers` as ticked."""

    id: Words
    phase: Words
    title: Words
    kind: Words
    who: Words
    low_min: Whole
    likely_min: Whole
    high_min: Whole
    wait_days: Whole
    wait_reason: Words
    state: Words
    actual_min: Whole
    first_day: MaybeDay
    last_day: MaybeDay
    surfaces: Surfaces
    closes: Words
    one_go: Answer
    hands: Whole
    weather: Words
    once_only_shots: Several
    dangers: Several


@dataclass(frozen=True)
class Need:
    """`what` cannot go on before `needs`; the kinds say which file each id is in."""

    id: Words
    what_kind: Words
    what: Words
    needs_kind: Words
    needs: Words
    strength: Words
    lag_days: Whole
    reason: Words


@dataclass(frozen=True)
class Permit:
    """A permit with its clock; `lapse_day` is there to check the computed one against."""

    id: Words
    name: Words
    asked_day: Day
    issued_day: Day
    lapse_days: Whole
    lapse_rule: Words
    rule_source: Words
    renewing_visit: Words
    last_counting_day: Day
    lapse_day: Day
    extension_rule: Words
    extension_fee_cents: Whole
    state: Words


@dataclass(frozen=True)
class Inspection:
    """A kind of visit owed under a permit, and what must be ready for it."""

    id: Words
    permit: Words
    name: Words
    surfaces: Surfaces
    order_here: Whole
    must_be_ready: Words
    notice_working_days: Whole
    who: Words
    before_what: Words
    source: Words


@dataclass(frozen=True)
class Visit:
    """A visit asked for, planned or held."""

    id: Words
    inspection: Words
    day: Day
    asked_day: MaybeDay
    outcome: Words
    outcome_reason: Words
    my_note: Words
    fee_cents: Whole


@dataclass(frozen=True)
class Result:
    """What one visit said about one surface; an amended one stays, marked in `state`."""

    id: Words
    visit: Words
    inspection: Words
    surface: Words
    day: Day
    result: Words
    evidence: Words
    paper: Words
    state: Words
    changed_by: Words
    note: Words


@dataclass(frozen=True)
class Correction:
    """What an inspector wants put right, in their words."""

    id: Words
    result: Words
    surface: Words
    item: Words
    words: Words
    form: Words
    rule: Words
    clears_by: Words
    state: Words
    done_day: MaybeDay
    cleared_day: MaybeDay
    task: Words
    note: Words


@dataclass(frozen=True)
class Coming:
    """Something booked for a day, for a task."""

    id: Words
    task: Words
    what: Words
    day: Day
    window: Words
    cancel_by: Words
    cancel_days: Whole
    note: Words


@dataclass(frozen=True)
class Question:
    """An open or settled question about a place."""

    id: Words
    surface: Words
    item: Words
    x_nm: MaybeLength
    y_nm: MaybeLength
    kind: Words
    words: Words
    asked_day: Day
    asked_by: Words
    state: Words
    settled_day: MaybeDay
    answer: Words
    holds: Words
    note: Words


@dataclass(frozen=True)
class Reordered:
    """An inspection moved so many places down the list, knowingly past one that it has to come before."""

    id: Words
    inspection: Words
    by: Whole
    day: Day
    why: Words


@dataclass(frozen=True)
class CalendarLine:
    """A line of the calendar; which of its columns are filled depends on `kind`."""

    kind: Words
    weekday: Words
    day: MaybeDay
    until_day: MaybeDay
    from_time: MaybeClock
    to_time: MaybeClock
    minutes: MaybeWhole
    note: Words
