"""Where a page stands: in a build or outside of all, on which day, and what its title block says."""

from dataclasses import dataclass
from datetime import date

from webapp.core.sheets import Sheet, SheetLink
from webapp.plan.rules.sheets import ELSEWHERE, SHEETS
from webapp.plan.store import BuildFacts
from webapp.values.dates import show_date


@dataclass(frozen=True, slots=True)
class Here:
    """The build in the address, the day, and what the title block says."""

    build: BuildFacts
    today: date
    look: str
    said: tuple[str, ...]
    last_change: str
    changed: str
    path: str

    @property
    def base(self) -> str:
        return self.build.base

    def sheet(self, number: str, name: str, title: str = "", key: str = "") -> Sheet:
        """A sheet of this build. `number` may carry a suffix (W2-E); its first part marks the list of sheets."""
        main = number.partition("-")[0]
        listed = [(no, label, f"{self.base}{path}") for no, label, path in SHEETS]
        listed += [(no, label, path) for no, label, path in ELSEWHERE]
        return Sheet(
            number=number,
            name=name,
            title=title or name,
            build=self.build.name,
            base=self.base,
            date=show_date(self.today),
            day=self.today.isoformat(),
            last_change=self.last_change,
            changed=self.changed,
            look=self.look,
            sheets=tuple(SheetLink(no, label, href, no == main) for no, label, href in listed),
            key=key,
            said=self.said,
            here=self.path,
        )


@dataclass(frozen=True, slots=True)
class Outside:
    """No build in particular: the list of builds, and what belongs to the whole installation."""

    today: date
    look: str
    said: tuple[str, ...]
    last_change: str
    changed: str
    path: str

    def sheet(self, number: str, name: str, title: str = "") -> Sheet:
        return Sheet(
            number=number,
            name=name,
            title=title or name,
            date=show_date(self.today),
            day=self.today.isoformat(),
            last_change=self.last_change,
            changed=self.changed,
            look=self.look,
            sheets=tuple(SheetLink(no, label, href, no == number) for no, label, href in ELSEWHERE),
            said=self.said,
            here=self.path,
        )
