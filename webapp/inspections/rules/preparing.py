"""Which points stand on a list before a visit: what is offered, and the builder's own rows."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from webapp.inspections.rules.checks import READY, VIDEO, Point, self_checks
from webapp.inspections.rules.kinds import CheckUse


@dataclass(frozen=True, slots=True)
class Known:
    """A row of the record as the list needs it. `own`: it stays when nothing offers it any more."""

    id: int
    words: str
    source: str
    ended: bool
    own: bool


@dataclass(frozen=True, slots=True)
class Listed:
    """One point on the list. `row_id` is None while it is only offered; `key` names its fields in a form."""

    key: str
    words: str
    source: str
    row_id: int | None = None


def must_parts(must_be_ready: str) -> tuple[str, ...]:
    """What was typed with commas between, each a sentence of its own."""
    parts = (part.strip() for part in must_be_ready.replace("\n", ",").split(","))
    return tuple(f"{part[:1].upper()}{part[1:]}" for part in parts if part)


def offered_ready(must_be_ready: str, source: str, *, remote: bool) -> tuple[Point, ...]:
    """What any visit wants, what this inspection was said to want, and the walk of a visit by video."""
    own = tuple(Point(words, source) for words in must_parts(must_be_ready))
    return (*own, *(VIDEO if remote else ()), *READY)


def offered_checks(trade: str) -> tuple[Point, ...]:
    """The list a trade begins with."""
    return self_checks().get(trade, ())


def listed(use: CheckUse, offered: Sequence[Point], known: Iterable[Known]) -> tuple[Listed, ...]:
    """What is offered, with the row it became; then the builder's own. One that ended is not offered again."""
    rows = tuple(known)
    by_words = {row.words.casefold(): row for row in rows}
    made = []
    for number, point in enumerate(offered):
        row = by_words.get(point.words.casefold())
        if row is None:
            made.append(Listed(f"{'r' if use == CheckUse.READY else 'c'}{number}", point.words, point.source))
        elif not row.ended:
            made.append(Listed(f"p{row.id}", row.words, row.source, row.id))
    told = {one.row_id for one in made}
    more = (row for row in rows if row.own and not row.ended and row.id not in told)
    return (*made, *(Listed(f"p{row.id}", row.words, row.source, row.id) for row in more))
