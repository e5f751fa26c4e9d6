"""The common ground of the stories: four walls and a ceiling, three permits, wiring, insulation and board; and the
steps a builder takes through the real pages.
"""

from dataclasses import dataclass
from datetime import date

import httpx2
from fastapi.testclient import TestClient
from sqlmodel import Session

from tests import builders
from tests.reading import soup
from webapp.plan.models import Build, Need, Task

BASE = "/builds/bindery"
WALLS = {"N": "North wall", "E": "East wall", "S": "South wall", "W": "West wall", "C": "Ceiling"}
KINDS = (
    ("IREL", "Rough electrical", "ELE", "NESWC"),
    ("IFRM", "Framing", "BLD", "NESWC"),
    ("IRPL", "Rough plumbing", "PLB", "W"),
    ("IINS", "Insulation", "BLD", "NESWC"),
)


@dataclass(frozen=True)
class Ground:
    """Ids by their short names. `asked` are visits that are asked for."""

    walls: dict[str, int]
    phases: dict[str, int]
    tasks: dict[str, int]
    inspections: dict[str, int]
    asked: dict[str, int]


def needs(session: Session, task: Task, inspection_id: int, surface_id: int) -> None:
    need = {"needs_kind": "inspection", "needs_id": inspection_id, "needs_surface_id": surface_id}
    builders.kept(session, Need(build_id=task.build_id, what_kind="task", what_id=task.row_id, **need))


def lay_out(session: Session, build: Build, asked_for: str = "IREL") -> Ground:
    """Everything framed and wired, nothing looked at; one visit of `asked_for` is asked for."""
    permits = {code: builders.a_permit(session, build, code, name=f"{code} permit") for code in ("ELE", "BLD", "PLB")}
    walls = {
        code: builders.a_surface(
            session, build, code, name, position=at, closed_by="board", facing=code * (code != "C")
        )
        for at, (code, name) in enumerate(WALLS.items(), 1)
    }
    kinds = {}
    for at, (code, name, permit, of) in enumerate(KINDS, 1):
        seen = tuple(walls[one] for one in of)
        kinds[code] = builders.an_inspection(session, permits[permit], name, seen, code=code, position=at)
    phases = {one: builders.a_phase(session, build, one, at) for at, one in enumerate(("Insulation", "Board"), 1)}
    tasks = {}
    for at, code in enumerate(walls, 1):
        batts = builders.a_task(session, phases["Insulation"], f"Batts, {code}", at, kind="insulation")
        board = builders.a_task(session, phases["Board"], f"Board, {code}", at)
        builders.works_on(session, batts, walls[code])
        builders.works_on(session, board, walls[code], closes=True)
        needs(session, batts, kinds["IREL"].row_id, walls[code].row_id)
        builders.a_need(session, board, batts)
        tasks |= {f"Batts, {code}": batts.row_id, f"Board, {code}": board.row_id}
    visit = builders.a_visit(session, kinds[asked_for], date(2026, 5, 15), outcome="asked", asked_on=date(2026, 5, 12))
    return Ground(
        walls={code: wall.row_id for code, wall in walls.items()},
        phases={one: phase.row_id for one, phase in phases.items()},
        tasks=tasks,
        inspections={code: kind.row_id for code, kind in kinds.items()},
        asked={asked_for: visit.row_id},
    )


def said(ground: Ground, **kinds: str) -> dict[str, str]:
    """What was said of each surface, as the form sends it."""
    return {f"kind_{ground.walls[code]}": kind for code, kind in kinds.items()}


def saved(answer: httpx2.Response) -> httpx2.Response:
    """The answer of a save that was taken."""
    assert answer.status_code == 303, answer.text
    return answer


def owed(client: TestClient, code: str) -> list[str]:
    """Titles of the hard stops on the sheet of one surface."""
    page = soup(client.get(f"{BASE}/surfaces/{code}/before-cover"))
    return [item.b.get_text() for item in page.select(".stops:not(.wish) > li")]


def roots(client: TestClient, query: str) -> list[str]:
    page = soup(client.get(f"{BASE}/what-stops?{query}&all=1"))
    return [item.b.get_text() for item in page.select(".stops.roots > li")]


def answer_of(client: TestClient, code: str) -> str:
    """The verdict of one surface."""
    return soup(client.get(f"{BASE}/surfaces/{code}/before-cover")).h1.get_text()
