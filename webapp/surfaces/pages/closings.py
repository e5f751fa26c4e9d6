"""When a surface was closed, covered by mistake, opened up: each line stays for ever, with what it took."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.surfaces.store import CoverFacts, SurfaceFacts
from webapp.values.dates import show_day
from webapp.values.words import plural


@dataclass(frozen=True, slots=True)
class ClosingLine:
    """`task_href` is the work of opening up or closing again, `took_href` its hours and cost; empty without such."""

    title: str
    detail: str
    href: str
    task_href: str
    took_href: str


def closing_lines(session: Session, here: Here, surface: SurfaceFacts) -> tuple[ClosingLine, ...]:
    """The latest first."""
    steps = store.list_cover_steps(session, here.build.id)
    found = []
    for cover in store.list_covers(session, here.build.id):
        if cover.surface_id == surface.id:
            task = f"{here.base}/tasks/{cover.task_id}" if cover.task_id is not None else ""
            if cover.by_mistake:
                taken = [f"{one.kind} {show_day(one.on_day, here.today)}" for one in steps if one.cover_id == cover.id]
                title, detail = _mistake(cover, here, taken)
                href = f"{here.base}/coverings/{cover.id}"
            else:
                title, detail, href = *_closing(cover, here), ""
            found.append(ClosingLine(title, detail, href, task, f"{task}/took" if task else ""))
    return tuple(found)


def _closing(cover: CoverFacts, here: Here) -> tuple[str, str]:
    rested = "; ".join(f"{what} ({who}, {when})" for what, who, when in cover.evidence)
    title = f"Closed {show_day(cover.covered_on, here.today)} by {cover.who}"
    return title, f"{cover.layers or 'Layers not noted'}. Rested on: {rested or 'nothing'}.{_opened(cover, here)}"


def _mistake(cover: CoverFacts, here: Here, steps: list[str]) -> tuple[str, str]:
    title = f"Covered by mistake {show_day(cover.covered_on, here.today)}: {cover.extent or 'all of it'}"
    owed = f"{plural(len(cover.not_cleared), 'thing')} owed then, {len(cover.evidence)} on hand."
    ended = f" Closed after all {show_day(cover.cleared_on, here.today)}." if cover.cleared_on else ""
    open_still = " Not cleared." if cover.stands else ""
    way = f" {'; '.join(steps)}." if steps else ""
    return title, f"{owed}{way[:2].upper()}{way[2:]}{open_still}{ended}{_opened(cover, here)}"


def _opened(cover: CoverFacts, here: Here) -> str:
    if cover.opened_on is None:
        return ""
    return f" Opened up {show_day(cover.opened_on, here.today)}: {cover.opened_why.removesuffix('.')}."
