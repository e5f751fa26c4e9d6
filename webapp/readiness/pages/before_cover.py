"""One surface: may it be covered, what is owed, what the answer rests on, and the next thing to do about it."""

from collections.abc import Iterable
from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.sheets import Sheet
from webapp.plan.guard import Here
from webapp.readiness.pages.lines import Line, owed_lines
from webapp.readiness.pages.order import OrderLine, order_lines
from webapp.readiness.rules import keys
from webapp.readiness.rules.answers import CoverAnswer, cover_answer, whom_sentence
from webapp.readiness.rules.nearest import NextThing, next_own_thing
from webapp.readiness.store import Proof, Site, let_go, proofs, site
from webapp.readiness.store.hold_points import breach_lines
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.section import is_turned, layers
from webapp.surfaces.store import CoverFacts, LiftedFacts, SurfaceFacts, get_surface, list_covers, list_lifted_before
from webapp.values.dates import show_date, show_day, show_long_day

NOUNS = {
    SurfaceKind.WALL: "wall",
    SurfaceKind.CEILING: "ceiling",
    SurfaceKind.FLOOR: "floor",
    SurfaceKind.SLAB: "slab",
    SurfaceKind.TRENCH: "trench",
    SurfaceKind.OUTSIDE: "face",
}


@dataclass(frozen=True, slots=True)
class ProofLine:
    """One settled thing as a row of the table. `paper` is the address of a picture of the card, or empty."""

    what: str
    who: str
    when: str
    href: str
    paper: str


@dataclass(frozen=True, slots=True)
class LetGoLine:
    what: str
    said: str


@dataclass(frozen=True, slots=True)
class ClosingLine:
    """A closing on record, with the evidence it rested on as it stood: (what, who said so, when)."""

    heading: str
    evidence: tuple[tuple[str, str, str], ...]
    opened: str


@dataclass(frozen=True, slots=True)
class MistakeLine:
    """A covering by mistake. `stands`: neither opened up nor settled since."""

    title: str
    detail: str
    href: str
    stands: bool


@dataclass(frozen=True, slots=True)
class BeforeCoverPage:
    sheet: Sheet
    no: bool
    heading: str
    sentence: str
    mark: str
    turned: bool
    noun: str
    stops_heading: str
    stops: tuple[Line, ...]
    stops_note: str
    wishes: tuple[Line, ...]
    wishes_note: str
    settled: tuple[ProofLine, ...]
    lifted: tuple[LetGoLine, ...]
    lifted_before: tuple[LetGoLine, ...]
    lifted_before_heading: str
    closings: tuple[ClosingLine, ...]
    mistakes: tuple[MistakeLine, ...]
    mistake_stands: bool
    covered_already_href: str
    open: bool
    next_label: str
    next_href: str
    next_icon: str
    next_slot: str
    """the owed picture whose camera it opens at once; empty for anything else"""
    surface_href: str
    letting_href: str
    close_href: str
    graph_href: str
    breaches: tuple[OrderLine, ...]


def proof_lines(found: Site, surface_id: int) -> tuple[ProofLine, ...]:
    return tuple(_proof_line(found, one) for one in proofs(found, surface_id))


def _proof_line(found: Site, one: Proof) -> ProofLine:
    when = show_day(one.day, found.today) if one.day else ""
    return ProofLine(one.what, one.who, when, one.href, f"/photos/{one.paper}/1280" if one.paper else "")


def let_go_line(found: Site, line: LiftedFacts) -> LetGoLine:
    who = line.who[:1].upper() + line.who[1:]
    return LetGoLine(line.what, f"“{line.why}” {who}, {show_day(line.on_day, found.today)}.")


def closing_line(cover: CoverFacts, noun: str) -> ClosingLine:
    opened = f"Opened up {show_date(cover.opened_on)}: {cover.opened_why}" if cover.opened_on else ""
    with_what = f", {cover.layers}" if cover.layers else ""
    how = "covered by mistake" if cover.by_mistake else "closed"
    part = f", {cover.extent}" if cover.extent else ""
    heading = f"{noun[:1].upper()}{noun[1:]}{part} {how} {show_date(cover.covered_on)} by {cover.who}{with_what}"
    if cover.cleared_on is not None:
        opened = f"Closed after all {show_date(cover.cleared_on)}. {opened}".strip()
    return ClosingLine(heading, cover.evidence, opened)


def _mistake_line(found: Site, cover: CoverFacts) -> MistakeLine:
    part = cover.extent or "all of it"
    title = f"{part[:1].upper()}{part[1:]}, {show_day(cover.covered_on, found.today)}"
    detail = f"By {cover.who}. Steps, work and evidence of then."
    if cover.cleared_on is not None:
        detail = f"Closed after all {show_date(cover.cleared_on)}."
    if cover.opened_on is not None:
        detail = f"Opened up {show_date(cover.opened_on)}: {cover.opened_why}"
    return MistakeLine(title, detail, f"{found.build.base}/coverings/{cover.id}", cover.stands)


def _verdict(found: Site, surface: SurfaceFacts, answer: CoverAnswer) -> tuple[bool, str, str]:
    """Whether it is a no, the heading, the sentence."""
    if found.states[surface.id].by_mistake and surface.covered_on is None:
        if answer.may_be_covered:
            return (
                False,
                "Settled by now",
                f"{surface.name} was covered by mistake. Record that it is closed after all.",
            )
        return True, "Covered, not cleared", answer.sentence
    if surface.covered_on is not None:
        closed = f"{surface.name}, closed {show_long_day(surface.covered_on)}."
        if answer.may_be_covered:
            return False, "Closed", f"{closed} It rests on what is listed below."
        return True, "Closed, but not in order", f"{closed} {_count(answer)} on it by now."
    if answer.may_be_covered:
        skipped = len(let_go(found, surface.id))
        let = f" {_times(skipped)} let go with a reason." if skipped else ""
        return False, "May be covered", f"{answer.sentence.removesuffix('.')}, {show_long_day(found.today)}.{let}"
    return True, "Do not cover", answer.sentence


def _count(answer: CoverAnswer) -> str:
    stops = len(answer.stops)
    return "One thing is open" if stops == 1 else f"{stops} things are open"


def _times(count: int) -> str:
    return "One thing was" if count == 1 else f"{count} things were"


def _next(found: Site, answer: CoverAnswer, covers: Iterable[CoverFacts]) -> NextThing:
    """The next thing of mine; of what is covered by mistake its own sheet, for nothing behind it can be shot now."""
    standing = next((cover for cover in covers if cover.stands), None)
    if standing is not None and not answer.may_be_covered:
        return "See the way out", f"{found.build.base}/coverings/{standing.id}", ""
    return next_own_thing(found.network, answer)


def _some_is_open(surface: SurfaceFacts, covers: Iterable[CoverFacts]) -> bool:
    """Whether anything of it can still be covered: it is not closed, and not all of it is covered by mistake."""
    return surface.covered_on is None and not any(cover.stands and not cover.extent for cover in covers)


def before_cover_page(session: Session, here: Here, code: str) -> BeforeCoverPage:
    """Raises NotFound for a code that no surface has."""
    found = site(session, here.build, here.today)
    surface = get_surface(session, here.build.id, code)
    answer = cover_answer(found.network, keys.cover(surface.id), surface.name)
    no, heading, sentence = _verdict(found, surface, answer)
    state = found.states[surface.id]
    noun = NOUNS[SurfaceKind(surface.kind)]
    href = f"{here.base}/surfaces/{surface.code}"
    covers = [cover for cover in list_covers(session, here.build.id) if cover.surface_id == surface.id]
    label, next_href, icon = _next(found, answer, covers)
    opened_up = any(cover.opened_on for cover in covers)
    return BeforeCoverPage(
        sheet=here.sheet(f"W2-{surface.code}", "Before cover", f"{surface.name}: {heading.lower()}", surface.facing),
        no=no,
        heading=heading,
        sentence=sentence,
        mark=layers(state, large=True),
        turned=is_turned(surface.kind),
        noun=noun,
        stops_heading="Hard stops" if surface.covered_on is None else "Owed",
        stops=owed_lines(found.network, answer.stops),
        stops_note=whom_sentence(answer.stops),
        wishes=owed_lines(found.network, answer.wishes),
        wishes_note=whom_sentence(answer.wishes),
        settled=proof_lines(found, surface.id),
        lifted=tuple(let_go_line(found, line) for line in let_go(found, surface.id)),
        lifted_before=tuple(
            let_go_line(found, line)
            for line in list_lifted_before(session, here.build.id)
            if line.surface_id == surface.id
        ),
        lifted_before_heading="Let go before it was opened up" if opened_up else "Let go before the change",
        closings=tuple(closing_line(cover, noun) for cover in covers if not cover.by_mistake),
        mistakes=tuple(_mistake_line(found, cover) for cover in covers if cover.by_mistake),
        mistake_stands=any(cover.stands for cover in covers),
        covered_already_href=f"{href}/covered-already" if no and _some_is_open(surface, covers) else "",
        open=surface.covered_on is None,
        next_label=label,
        next_href=next_href,
        next_icon=icon,
        next_slot=next_href.partition("/shoot?slot=")[2],
        surface_href=href,
        letting_href=f"{href}/let-go",
        close_href=f"{href}/cover",
        breaches=order_lines(
            session, found, (one for one in breach_lines(session, found) if one.surface_id == surface.id)
        ),
        graph_href=f"{here.base}/what-stops?surface={surface.code}",
    )
