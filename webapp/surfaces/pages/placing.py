"""What the drawing needs to be touched: where things lie, and the forms of placing and moving one."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Self

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.places import UP
from webapp.surfaces.rules.quick import last_line, offered
from webapp.surfaces.rules.studs import members
from webapp.surfaces.rules.tagging import face_of, tags_of
from webapp.surfaces.store import ItemFacts, LineFacts, SurfaceFacts

FLAGS = ("mirror", "replaced", "other")


@dataclass(frozen=True, slots=True)
class Seen:
    """How a surface is drawn: from the other side, with what was replaced, over what is in its other face."""

    mirror: bool = False
    replaced: bool = False
    other: bool = False

    @classmethod
    def of(cls, *flags: str) -> Self:
        """As it is asked for: "1" for yes."""
        return cls(*(flag == "1" for flag in flags))

    @property
    def flags(self) -> tuple[str, ...]:
        return tuple(name for name in FLAGS if getattr(self, name))

    def query(self, new: int = 0) -> str:
        return "&".join([*(f"{name}=1" for name in self.flags), *([f"new={new}"] if new else [])])

    def at(self, href: str) -> str:
        return f"{href}?{self.query()}" if self.flags else href


AS_IT_IS = Seen()


@dataclass(frozen=True, slots=True)
class Touch:
    """Lengths in nanometres from the surface's own corner, also where it is drawn from the other side.

    `spots`: where each thing lies that may be moved, by its id; `marked`: the one that is new; `moved`: the name of the
    thing whose move was not taken. `kinds`: value and words.
    """

    seen: Seen
    unit: str
    length_nm: int
    height_nm: int
    corner: str
    up: str
    studs: str
    spots: dict[int, str]
    marked: int
    place: FormState
    placing: bool
    move: FormState
    moved: str
    kinds: tuple[tuple[str, str], ...]
    lines: tuple[tuple[str, str], ...]
    x_label: str
    y_label: str


def touch(
    session: Session,
    here: Here,
    surface: SurfaceFacts,
    seen: Seen,
    new: int,
    place: FormState | None,
    move: FormState | None,
) -> Touch:
    build_id, face = here.build.id, face_of(surface, here.build.unit)
    items = [item for item in store.list_items(session, build_id) if item.surface_id == surface.id]
    tags = tags_of(items)
    there = [item for item in items if item.replaced_on is None]
    chosen = move.value("item") if move else ""
    return Touch(
        seen=seen,
        unit=here.build.unit,
        length_nm=surface.length_nm or 0,
        height_nm=surface.height_nm or 0,
        corner=surface.origin_corner or "the corner",
        up=_up(surface),
        studs=" ".join(str(x) for x in members(face)) if face else "",
        spots={item.id: f"{item.x_nm} {item.y_nm}" for item in there if item.id in tags},
        marked=new,
        place=place or FormState(),
        placing=place is not None,
        move=move or FormState(),
        moved=next((f"{tags.get(item.id, '')} {item.label}" for item in items if str(item.id) == chosen), ""),
        kinds=tuple((one.kind, f"{one.kind[0].upper()}{one.kind[1:]}") for one in offered(one.kind for one in there)),
        lines=_lines(store.list_lines(session, build_id), items),
        x_label=f"From {surface.origin_corner}" if surface.origin_corner else "From the corner",
        y_label=UP[SurfaceKind(surface.kind)],
    )


def _lines(lines: Sequence[LineFacts], items: Sequence[ItemFacts]) -> tuple[tuple[str, str], ...]:
    """The last one used here is chosen before anything is: mostly the next box hangs on it too."""
    in_use = [line for line in lines if line.ended_on is None]
    last = last_line(items, in_use)
    words = f"the last one used here ({last.code}), where it fits" if last else "the last one used here"
    return ("", words), ("none", "none"), *((line.code, f"{line.code} {line.name}") for line in in_use)


def _up(surface: SurfaceFacts) -> str:
    """What is said after the second offset: "above the floor"."""
    if surface.kind in {SurfaceKind.WALL, SurfaceKind.OUTSIDE}:
        return "above the floor"
    return "below grade" if surface.kind == SurfaceKind.TRENCH else "across"


def placed_words(session: Session, here: Here, surface: SurfaceFacts, item_id: int) -> str:
    """What is said once something was placed: its tag, its name and its line."""
    items = [item for item in store.list_items(session, here.build.id) if item.surface_id == surface.id]
    tag = tags_of(items)[item_id]
    item = next(item for item in items if item.id == item_id)
    line = f", on {item.line}" if item.line else ""
    return f"{tag}: “{item.label}” is on record{line}."
