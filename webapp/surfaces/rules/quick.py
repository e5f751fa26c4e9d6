"""What is placed with one press: the kinds offered, and what each brings along. All of it can be put right."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Protocol, TypeVar

SHOWN = 8
"""kinds offered at once: two rows under a thumb"""


@dataclass(frozen=True, slots=True)
class Quick:
    """A kind that is placed with one press. `services` it may be of: the first where no line says otherwise."""

    kind: str
    services: tuple[str, ...]
    is_box: bool = False


WIRED, PIPED = ("electric", "data"), ("water", "drain", "vent")
QUICK = (
    Quick("receptacle", ("electric",), is_box=True),
    Quick("switch", ("electric",), is_box=True),
    Quick("light box", ("electric",), is_box=True),
    Quick("data box", ("data",), is_box=True),
    Quick("nail plate", (*WIRED, *PIPED, "gas")),
    Quick("blocking", ("framing",)),
    Quick("stub-out", (*PIPED, "gas")),
    Quick("junction box", WIRED, is_box=True),
    Quick("duct", ("air",)),
    Quick("conduit", (*WIRED, "other")),
    Quick("sleeve", ("other", *WIRED, *PIPED, "gas", "air")),
    Quick("strap", ("framing",)),
    Quick("valve", ("water", "gas")),
    Quick("cleanout", ("drain",)),
    Quick("vent", ("vent",)),
    Quick("fireblock", ("framing",)),
)
"""in the order in which a wall is mostly filled (common practice, no source)"""
BY_KIND = {one.kind: one for one in QUICK}


class Item(Protocol):
    """A hidden thing as it is kept."""

    @property
    def id(self) -> int: ...
    @property
    def kind(self) -> str: ...
    @property
    def line_id(self) -> int | None: ...


class Line(Protocol):
    """A circuit or line of the build."""

    @property
    def id(self) -> int: ...
    @property
    def service(self) -> str: ...


SomeLine = TypeVar("SomeLine", bound=Line)


def offered(kinds: Iterable[str], most: int = SHOWN) -> tuple[Quick, ...]:
    """The kinds used most on a surface first, then the others in their own order."""
    used = Counter(kinds)
    return tuple(sorted(QUICK, key=lambda one: -used[one.kind]))[:most]


def last_line(items: Iterable[Item], lines: Sequence[SomeLine], services: Iterable[str] = ()) -> SomeLine | None:
    """The line of the thing that was written down last, of those of these services; None where there is none."""
    wanted, known = set(services), {line.id: line for line in lines}
    for item in sorted(items, key=lambda one: -one.id):
        line = known.get(item.line_id or 0)
        if line is not None and (not wanted or line.service in wanted):
            return line
    return None


def made_label(kind: str, kinds: Iterable[str]) -> str:
    """A name for what was given none: "Receptacle 3" is the third of its kind on the surface. Not its tag, which counts
    from the corner and changes with what is placed before it."""
    return f"{kind[:1].upper()}{kind[1:]} {sum(one == kind for one in kinds) + 1}"
