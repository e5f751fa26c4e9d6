"""What a paper can be about, as pages above this package name it."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from webapp.papers.rules.kinds import AboutKind
from webapp.values.own_words import own

About = tuple[str, int]
"""(kind, id of its table)"""

GROUPS: Mapping[str, str] = {
    AboutKind.PERMIT: own("Permits"),
    AboutKind.INSPECTION: own("Inspections"),
    AboutKind.VISIT: "Visits",
    AboutKind.SURFACE: "Surfaces",
    AboutKind.ITEM: "Boxes and fittings",
    AboutKind.LINE: "Circuits and lines",
    AboutKind.TASK: "Tasks",
    AboutKind.HIRED: "Hired trades",
}


@dataclass(frozen=True, slots=True)
class Thing:
    """One thing a paper can be about. `name`: how its address names it; `also`: what else a paper of it may be filed
    under, such as a visit's permit and surfaces; `past`: offered no more, still named.
    """

    kind: str
    id: int
    name: str
    label: str
    href: str
    also: tuple[About, ...] = ()
    past: bool = False

    @property
    def key(self) -> str:
        """How a form sends it: `surface:3`."""
        return f"{self.kind}:{self.id}"

    @property
    def place(self) -> str:
        """How an address names it: `surface/N`."""
        return f"{self.kind}/{self.name}"

    @property
    def about(self) -> About:
        return (self.kind, self.id)


def by_key(things: Iterable[Thing]) -> dict[str, Thing]:
    return {thing.key: thing for thing in things}


def is_of(about: Iterable[About], thing: Thing) -> bool:
    """Whether a paper about these is at hand where `thing` is looked at; one about nothing is about the whole build."""
    filed = set(about)
    return bool(filed & {thing.about, *thing.also})
