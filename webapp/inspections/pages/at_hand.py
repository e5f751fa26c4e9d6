"""The papers that are kept for a visit, kind by kind, and which kinds none is kept of."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.inspections.pages.naming import name_things
from webapp.papers.pages import PaperLine, at_hand, paper_lines
from webapp.papers.rules.kinds import AboutKind, PaperKind
from webapp.plan.guard import Here
from webapp.values.own_words import own
from webapp.values.words import join_words

KINDS = {
    PaperKind.CARD: f"Cards of {own('permits')} and {own('inspections')}",
    PaperKind.PLAN: "Approved plan",
    PaperKind.MAKER: "Makers’ instructions",
    PaperKind.ENGINEER: "Engineers’ and truss papers",
    PaperKind.LETTER: "Letters",
}
FEW = 3


@dataclass(frozen=True, slots=True)
class KindAtHand:
    """The papers of one kind; `folded`: too many to stand there at once."""

    title: str
    lines: tuple[PaperLine, ...]
    folded: bool


@dataclass(frozen=True, slots=True)
class PapersAtHand:
    """`none`: the kinds of which nothing is kept for this visit, in words."""

    kinds: tuple[KindAtHand, ...]
    count: int
    none: str
    new: str


def papers_at_hand(session: Session, here: Here, visit_id: int) -> PapersAtHand:
    """What an inspector may ask for at this visit; other papers stand on the sheet of the visit."""
    things = name_things(session, here)
    visit = next(one for one in things if (one.kind, one.id) == (AboutKind.VISIT, visit_id))
    lines = paper_lines(session, here, at_hand(session, here.build.id, visit), things)
    found = []
    for kind, title in KINDS.items():
        of_it = tuple(line for line in lines if line.kind == kind)
        if of_it:
            found.append(KindAtHand(title, of_it, folded=len(of_it) > FEW))
    there = {one.title for one in found}
    return PapersAtHand(
        kinds=tuple(found),
        count=sum(len(one.lines) for one in found),
        none=join_words([title[:1].lower() + title[1:] for title in KINDS.values() if title not in there]),
        new=f"{here.base}/papers/new?about={visit.key}",
    )
