"""What the sheets of papers show. What papers are about is named by the packages above and handed in as `things`."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from urllib.parse import urlencode

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.papers import forms, store
from webapp.papers.rules.kinds import AboutKind, PaperKind
from webapp.papers.rules.things import GROUPS, Thing, is_of
from webapp.papers.store import PaperFacts
from webapp.photos.pages import Picture, picture
from webapp.photos.store import list_photos
from webapp.plan.guard import Here
from webapp.values.dates import show_date
from webapp.values.errors import NotFound
from webapp.values.words import join_words, plural

Choices = tuple[tuple[str, str], ...]
AT_FIRST = 4
"""things named in one line of a list"""
Things = Sequence[Thing]
SHOWN = 5
ASKED_FIRST = (PaperKind.PLAN, PaperKind.ENGINEER, PaperKind.MAKER, PaperKind.LETTER, PaperKind.CARD)
"""what is looked for first at a visit"""
AT_A_VISIT = {AboutKind.VISIT, AboutKind.INSPECTION}


@dataclass(frozen=True, slots=True)
class PaperLine:
    """One paper in a list. `picture`: of the paper, None for a file or one that only lies on site."""

    code: str
    kind: str
    name: str
    detail: str
    href: str
    picture: Picture | None
    file: str
    """ "PDF, 120 kB", or empty"""
    stands: bool


@dataclass(frozen=True, slots=True)
class Group:
    """Options of a select under one heading; `options` are (value, words)."""

    label: str
    options: Choices


@dataclass(frozen=True, slots=True)
class PapersPage:
    """V7. `groups` are of the chosen kind and place, kind by kind; `old` were replaced or put away."""

    sheet: Sheet
    heading: str
    groups: tuple[tuple[str, tuple[PaperLine, ...]], ...]
    old: tuple[PaperLine, ...]
    kinds: Choices
    places: tuple[Group, ...]
    kind: str
    at: str
    any: bool
    here: str
    new: str


@dataclass(frozen=True, slots=True)
class PaperPage:
    """One paper: its picture or its file, what it is about, where it lies, and what it replaced."""

    sheet: Sheet
    paper: PaperFacts
    kind: str
    picture: Picture | None
    file: str
    about: tuple[tuple[str, str], ...]
    facts: tuple[tuple[str, str], ...]
    gone: str
    newer: PaperLine | None
    older: tuple[PaperLine, ...]
    here: str
    form: FormState


@dataclass(frozen=True, slots=True)
class PaperFormPage:
    """A new paper, or one that is put right. `ticked`: surfaces and what it is about by now."""

    sheet: Sheet
    heading: str
    action: str
    back: str
    kinds: Choices
    ticked: Choices
    groups: tuple[Group, ...]
    has_file: str
    limit_mb: int
    form: FormState


@dataclass(frozen=True, slots=True)
class OfPage:
    """The papers of one thing, for the page of that thing: the first few, the `rest`, and `more` of what it is under,
    such as its surface.
    """

    sheet: Sheet
    label: str
    lines: tuple[PaperLine, ...]
    rest: tuple[PaperLine, ...]
    more: tuple[PaperLine, ...]
    all: str
    new: str


def papers_page(session: Session, here: Here, things: Things, kind: str = "", at: str = "") -> PapersPage:
    """Raises NotFound for a kind or a place that is not there."""
    named = {thing.place: thing for thing in things}
    if (kind and kind not in list(PaperKind)) or (at and at not in named):
        raise NotFound("There are no such papers here.")
    every = store.list_papers(session, here.build.id)
    chosen = [one for one in every if (not kind or one.kind == kind) and (not at or is_of(one.about, named[at]))]
    lines = paper_lines(session, here, chosen, things)
    used = {about for paper in every for about in paper.about}
    count = sum(line.stands for line in lines)
    return PapersPage(
        sheet=here.sheet("V7", "Papers"),
        heading=plural(count, "paper") if every else "Papers",
        groups=_by_kind(lines),
        old=tuple(line for line in lines if not line.stands),
        kinds=(("", "Every kind"), *((each.value, _first_up(each)) for each in PaperKind)),
        places=groups_of((one for one in things if one.about in used), "place"),
        kind=kind,
        at=at,
        any=bool(every),
        here=f"{here.base}/papers",
        new=f"{here.base}/papers/new{_asked(about=named[at].key if at else '')}",
    )


def _by_kind(lines: Sequence[PaperLine]) -> tuple[tuple[str, tuple[PaperLine, ...]], ...]:
    standing = [line for line in lines if line.stands]
    groups = ((_first_up(kind), tuple(line for line in standing if line.kind == kind)) for kind in PaperKind)
    return tuple((title, found) for title, found in groups if found)


def papers_of(session: Session, here: Here, things: Things, kind: str, name: str) -> OfPage:
    """What is at hand where one thing is looked at: its own papers and those of what it is under."""
    thing = next((one for one in things if (one.kind, one.name) == (kind, name)), None)
    if thing is None:
        raise NotFound("There is nothing of that name in this build.")
    found = [one for one in store.list_papers(session, here.build.id) if one.stands and is_of(one.about, thing)]
    if kind in AT_A_VISIT:
        found = at_hand(session, here.build.id, thing)
    own = [one for one in found if thing.about in one.about or kind in AT_A_VISIT]
    if kind in AT_A_VISIT:
        own.sort(key=lambda one: ASKED_FIRST.index(one.kind) if one.kind in ASKED_FIRST else len(ASKED_FIRST))
    shown = paper_lines(session, here, own, things)
    base = f"{here.base}/papers"
    return OfPage(
        sheet=here.sheet("V7", "Papers", f"Papers: {thing.label}"),
        label=thing.label,
        lines=shown[:SHOWN] if len(shown) > SHOWN + 1 else shown,
        rest=shown[SHOWN:] if len(shown) > SHOWN + 1 else (),
        more=paper_lines(session, here, [one for one in found if one not in own], things),
        all=f"{base}{_asked(at=thing.place)}",
        new=f"{base}/new{_asked(about=thing.key)}",
    )


def at_hand(session: Session, build_id: int, thing: Thing) -> list[PaperFacts]:
    """What has to be readable at a visit: about the visit, its permit, its surfaces, all in them, or the build;
    and every approved plan, since it is of the whole building whatever permit it came with.
    """
    return [
        one
        for one in store.list_papers(session, build_id)
        if one.stands and one.at_hand and (one.kind == PaperKind.PLAN or not one.about or is_of(one.about, thing))
    ]


def paper_lines(session: Session, here: Here, papers: Sequence[PaperFacts], things: Things) -> tuple[PaperLine, ...]:
    """One more query, for the pictures."""
    photos = {photo.id: photo for photo in list_photos(session, (one.photo_id for one in papers if one.photo_id))}
    labels = {thing.about: thing.label for thing in things}
    return tuple(
        PaperLine(
            code=one.code,
            kind=one.kind,
            name=one.name,
            detail=_detail(one, labels),
            href=f"{here.base}/papers/{one.code}",
            picture=picture(photos[one.photo_id], one.name) if one.photo_id in photos else None,
            file=_file(one),
            stands=one.stands,
        )
        for one in papers
    )


def _detail(paper: PaperFacts, labels: dict[tuple[str, int], str]) -> str:
    about = [labels[one] for one in paper.about if one in labels]
    if len(about) > AT_FIRST:
        about = [*about[: AT_FIRST - 1], f"{len(about) - AT_FIRST + 1} more"]
    parts = (
        show_date(paper.day) if paper.day else "",
        join_words(about),
        _first_up(paper.where),
    )
    return ". ".join(part.rstrip(".") for part in parts if part) + "."


def _file(paper: PaperFacts) -> str:
    """Whole kilobytes, rounded up (IEC 80000-13)."""
    return f"PDF, {-(-paper.file_bytes // 1000)} kB" if paper.file_sha256 else ""


def paper_page(session: Session, here: Here, things: Things, code: str, form: FormState | None = None) -> PaperPage:
    every = store.list_papers(session, here.build.id)
    paper = store.get_paper(session, here.build.id, code)
    lines = dict(zip((one.id for one in every), paper_lines(session, here, every, things), strict=True))
    named = {thing.about: thing for thing in things}
    facts = (
        ("What it is", _first_up(paper.kind)),
        ("Day on it", show_date(paper.day) if paper.day else "not said"),
        ("The paper itself lies", paper.where or "not said"),
        ("At a visit", "at hand" if paper.at_hand else "not needed"),
        ("House file", "listed there" if paper.in_house_file else "left out"),
        ("Private", "yes" if paper.private else "no"),
    )
    return PaperPage(
        sheet=here.sheet("V7", "Papers", paper.name),
        paper=paper,
        kind=_first_up(paper.kind),
        picture=lines[paper.id].picture,
        file=lines[paper.id].file,
        about=tuple((named[one].label, named[one].href) for one in paper.about if one in named),
        facts=facts,
        gone=f"It holds no more since {show_date(paper.ended_on)}. It stays readable." if paper.ended_on else "",
        newer=lines[paper.replaced_by_id] if paper.replaced_by_id else None,
        older=tuple(lines[one.id] for one in every if one.replaced_by_id == paper.id),
        here=f"{here.base}/papers/{paper.code}",
        form=form or FormState.of(on=here.today.isoformat()),
    )


def paper_form_page(
    session: Session, here: Here, things: Things, limit_mb: int, code: str = "", form: FormState | None = None
) -> PaperFormPage:
    """The form of a new paper, or of the one called `code`."""
    paper = store.get_paper(session, here.build.id, code) if code else None
    state = form or (forms.filled(paper) if paper else forms.blank())
    wanted = set(state.values("about"))
    surfaces = [one for one in things if one.kind == AboutKind.SURFACE]
    ticked = [one for one in things if one.kind != AboutKind.SURFACE and one.key in wanted]
    listed = {one.key for one in (*surfaces, *ticked)}
    base = f"{here.base}/papers"
    return PaperFormPage(
        sheet=here.sheet("V7", "Papers", f"Put right: {paper.name}" if paper else "Add a paper"),
        heading="Put it right" if paper else "Add a paper",
        action=f"{base}/{code}/edit" if code else base,
        back=f"{base}/{code}" if code else base,
        kinds=tuple((each.value, _first_up(each)) for each in PaperKind),
        ticked=tuple((one.key, one.label) for one in (*ticked, *surfaces)),
        groups=groups_of(one for one in things if not one.past and one.key not in listed),
        has_file=_has_file(paper, state),
        limit_mb=limit_mb,
        form=state,
    )


def _has_file(paper: PaperFacts | None, state: FormState) -> str:
    if state.value("paper_kept"):
        return "It is here already."
    if paper and (paper.photo_id or paper.file_sha256):
        return "Only if another one takes its place. The one that is here is kept."
    return ""


def groups_of(things: Iterable[Thing], value: str = "key") -> tuple[Group, ...]:
    """Options of a select, by kind; sent as their `key`, or as their `place` in addresses."""
    by_kind: dict[str, list[tuple[str, str]]] = {}
    for thing in things:
        by_kind.setdefault(thing.kind, []).append((getattr(thing, value), thing.label))
    return tuple(Group(GROUPS[kind], tuple(by_kind[kind])) for kind in GROUPS if kind in by_kind)


def _first_up(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}"


def _asked(**asked: str) -> str:
    wanted = {name: value for name, value in asked.items() if value}
    return f"?{urlencode(wanted)}" if wanted else ""
