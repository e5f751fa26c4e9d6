"""The papers and tests that go with the house."""

from collections.abc import Iterator
from dataclasses import dataclass

from sqlmodel import Session

from webapp.inspections.pages.naming import name_things
from webapp.papers.pages import paper_lines
from webapp.papers.store import list_papers
from webapp.plan.guard import Here


@dataclass(frozen=True, slots=True)
class HousePaper:
    """One paper in the house file: (name, kind) and where it is to be found."""

    name: str
    detail: str
    href: str


def house_papers(session: Session, here: Here) -> tuple[HousePaper, ...]:
    """What the builder wants in the house file, kind by kind."""
    return tuple(_lines(session, here))


def _lines(session: Session, here: Here) -> Iterator[HousePaper]:
    kept = [one for one in list_papers(session, here.build.id) if one.stands and one.in_house_file]
    lines = paper_lines(session, here, kept, name_things(session, here))
    for line in sorted(lines, key=lambda line: line.kind):
        how = line.file or ("picture" if line.picture else "")
        detail = ". ".join(
            part for part in (f"{line.kind[:1].upper()}{line.kind[1:]}", line.detail.rstrip(".")) if part
        )
        yield HousePaper(line.name, f"{detail}{f'; {how}' if how else ''}.", line.href)
