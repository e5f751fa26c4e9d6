"""Rows of the scenario about what was said: episodes, claims, remarks, papers, advice and tests."""

from dataclasses import dataclass

from webapp.demo.rules.cells import (
    Answer,
    Day,
    MaybeAnswer,
    MaybeClock,
    MaybeDay,
    Several,
    Surfaces,
    Whole,
    Words,
)


@dataclass(frozen=True)
class Episode:
    """An episode; `body_md` is Markdown."""

    id: Words
    number: Whole
    title: Words
    from_day: Day
    to_day: Day
    published_day: MaybeDay
    state: Words
    chapters: Several
    task: Words
    ready_stops: Words
    body_md: Words


@dataclass(frozen=True)
class Claim:
    """Something an episode said and the record it rests on."""

    id: Words
    episode: Words
    words: Words
    rests_on: Words
    rests_on_id: Words
    when_said: Words
    now: Words
    correction: Words
    note: Words


@dataclass(frozen=True)
class EpisodeCorrection:
    """A dated correction of an episode, out or owed."""

    id: Words
    episode: Words
    state: Words
    published_day: MaybeDay
    weight: Words
    words: Words
    note: Words


@dataclass(frozen=True)
class Remark:
    """What a viewer wrote."""

    id: Words
    episode: Words
    handle: Words
    day: Day
    kind: Words
    surface: Words
    item: Words
    words: Words
    state: Words
    answer: Words
    answered_day: MaybeDay
    duplicate_of: Words
    question: Words
    covered_then: MaybeAnswer


@dataclass(frozen=True)
class Paper:
    """A paper of the build."""

    id: Words
    kind: Words
    permit: Words
    day: Day
    surfaces: Surfaces
    note: Words
    private: Answer
    in_house_file: Answer


@dataclass(frozen=True)
class Advice:
    """Something said aloud, by whom and when."""

    id: Words
    day: Day
    who: Words
    surface: Words
    words: Words
    form: Words
    used_for: Words


@dataclass(frozen=True)
class Test:
    """A test with its readings."""

    id: Words
    surface: Words
    service: Words
    kind: Words
    day: Day
    wanted: Words
    start_reading: Words
    end_reading: Words
    start_time: MaybeClock
    end_time: MaybeClock
    minutes: Whole
    outcome: Words
    note: Words
