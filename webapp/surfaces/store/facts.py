"""What other packages and pages are told of surfaces: frozen rows, lengths in whole nanometres."""

from dataclasses import dataclass
from datetime import date, datetime

from webapp.surfaces.rules.kinds import SERVICE_LETTERS
from webapp.surfaces.rules.owed import SlotState, slot_state, taken_day


@dataclass(frozen=True, slots=True)
class SurfaceFacts:
    """One surface. `covered_on` is the day it was closed; None while it is open (or open again)."""

    id: int
    position: int
    code: str
    name: str
    kind: str
    length_nm: int | None
    height_nm: int | None
    origin_corner: str
    far_corner: str
    back_of_id: int | None
    framing: str
    spacing_nm: int | None
    first_stud_nm: int | None
    bearing: bool
    facing: str
    closed_by: str
    note: str
    boxes_before: int | None
    boxes_after: int | None
    needs_count: bool
    covered_on: date | None


@dataclass(frozen=True, slots=True)
class LineFacts:
    """A circuit, pipe line, duct or cable of the build; `ended_on` when it was taken out of use."""

    id: int
    position: int
    code: str
    kind: str
    name: str
    service: str
    number: str
    breaker_a: int | None
    poles: int
    cable: str
    room: str
    note: str
    ended_on: date | None


@dataclass(frozen=True, slots=True)
class ItemFacts:
    """Something hidden: its centre along its surface and above the finished floor. `line`: short name of its line.

    `x_nm` is from the surface's own corner, `typed_nm` as it was measured, from `from_corner`."""

    id: int
    surface_id: int
    label: str
    kind: str
    service: str
    line_id: int | None
    line: str
    from_corner: str
    x_nm: int | None
    y_nm: int | None
    width_nm: int | None
    note: str
    is_box: bool
    from_picture: bool
    replaced_on: date | None
    replaced_by_id: int | None
    typed_nm: int | None

    @property
    def letter(self) -> str:
        """The letter and colour class of its service in drawings; empty for framing."""
        return SERVICE_LETTERS[self.service]


@dataclass(frozen=True, slots=True)
class OpeningFacts:
    """A door, window, hatch or sleeve by its lower left corner and rough size; `removed_on` when it went."""

    id: int
    surface_id: int
    kind: str
    name: str
    x_nm: int
    y_nm: int
    width_nm: int
    height_nm: int
    removed_on: date | None


@dataclass(frozen=True, slots=True)
class RunFacts:
    """A stretch of cable, pipe or duct on one surface: `points` (x, y) from bend to bend.

    `line` names its line, `line_kind` is what that line is; empty where it belongs to none.
    """

    id: int
    surface_id: int
    label: str
    line_id: int | None
    line: str
    service: str
    points: tuple[tuple[int, int], ...]
    note: str
    from_item_id: int | None
    to_item_id: int | None
    continues_id: int | None
    replaced_on: date | None
    replaced_by_id: int | None
    line_kind: str


@dataclass(frozen=True, slots=True)
class TieFacts:
    """A point `x_nm` along a trench or slab, and how far it is from two fixed points."""

    id: int
    surface_id: int
    name: str
    x_nm: int
    from_a: str
    a_nm: int
    from_b: str
    b_nm: int
    note: str
    removed_on: date | None


@dataclass(frozen=True, slots=True)
class SlotFacts:
    """An owed picture, with the capture time of the picture that fills it. `covered_on`: of its surface, if closed.

    `hid_on`: the day of a closing, or of a covering by mistake, behind which the picture was taken: it shows nothing.
    """

    id: int
    surface_id: int
    position: int
    number: int
    picture_set: str
    what: str
    strength: str
    photo_id: int | None
    filled_at: datetime | None
    made_from: str
    item_id: int | None
    ended_on: date | None
    sha256: str | None
    taken_at: str | None
    taken_from: str | None
    covered_on: date | None
    hid_on: date | None

    @property
    def state(self) -> SlotState:
        return slot_state(self.photo_id is not None, self.taken_at, self.hid_on)

    @property
    def settled(self) -> bool:
        """Whether the picture is there and its date proves it: an unknown date proves nothing."""
        return self.state is SlotState.FILLED

    @property
    def settled_on(self) -> date | None:
        """The day the picture was taken, once it settles the slot."""
        return taken_day(self.taken_at) if self.settled else None

    @property
    def by_my_word(self) -> bool:
        """Whether it settles the slot only because the builder said when it was taken."""
        return self.settled and self.taken_from == "owner"


@dataclass(frozen=True, slots=True)
class QuestionFacts:
    """A question about a place; `settled_on` is None while it is open."""

    id: int
    surface_id: int | None
    item_id: int | None
    kind: str
    words: str
    asked_on: date
    asked_by: str
    answer: str
    settled_on: date | None


@dataclass(frozen=True, slots=True)
class LiftedFacts:
    """Something owed that was let go, with its reason. `ended_on`: its surface was opened again, it counts no more."""

    id: int
    surface_id: int
    node_key: str
    what: str
    by: str
    who: str
    why: str
    on_day: date
    photo_id: int | None
    at: datetime
    ended_on: date | None


@dataclass(frozen=True, slots=True)
class CoverFacts:
    """A closing of a surface. `evidence`: (what, who said so, when) as it stood; `opened_on` when it was opened up.

    `not_cleared`: (what, where it stood) that was still owed when it was covered by mistake, `owed_keys` the same by
    their keys in the graph of needs.
    """

    id: int
    surface_id: int
    covered_on: date
    who: str
    layers: str
    evidence: tuple[tuple[str, str, str], ...]
    at: datetime
    extent: str
    not_cleared: tuple[tuple[str, str], ...]
    cleared_on: date | None
    task_id: int | None
    opened_on: date | None
    opened_why: str
    owed_keys: tuple[str, ...]

    @property
    def by_mistake(self) -> bool:
        return bool(self.not_cleared)

    @property
    def stands(self) -> bool:
        """Whether it is a covering by mistake that was neither opened up nor settled since."""
        return self.by_mistake and self.cleared_on is None and self.opened_on is None


@dataclass(frozen=True, slots=True)
class CoverStepFacts:
    """A step on the way out after a covering by mistake."""

    id: int
    cover_id: int
    kind: str
    on_day: date
    who: str
    words: str
    photo_id: int | None
    at: datetime


@dataclass(frozen=True, slots=True)
class TaskSurfaceFacts:
    task_id: int
    surface_id: int
    closes: bool


@dataclass(frozen=True, slots=True)
class ShotSurfaceFacts:
    shot_id: int
    surface_id: int


@dataclass(frozen=True, slots=True)
class PlaceFacts:
    """Where a picture belongs in a build; a picture that is nowhere yet has no surface."""

    id: int
    photo_id: int
    surface_id: int | None
    item_id: int | None
    stage: str
    x_nm: int | None
    y_nm: int | None


@dataclass(frozen=True, slots=True)
class ChangeFacts:
    """What something of a surface was before it was put right."""

    what_kind: str
    what_id: int
    field: str
    was: str
    became: str
    why: str
    at: datetime
