"""The question before an order is saved that breaks a hold point, and the lines of what is broken knowingly."""

from collections.abc import Iterable
from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.plan.guard import Here
from webapp.readiness.store import Site
from webapp.readiness.store.hold_points import BreachLine, breach_lines
from webapp.values.dates import show_day
from webapp.values.words import plural


@dataclass(frozen=True, slots=True)
class OrderLine:
    """One hold point the order breaks. `kept`: since when and why, empty while nothing was said."""

    words: str
    detail: str
    href: str
    kept: str


@dataclass(frozen=True, slots=True)
class OrderBreaksPage:
    """`to` is sent again with the reason; `action` is where the move was sent, `back` the list it was made in."""

    sheet: Sheet
    heading: str
    moved: str
    lines: tuple[OrderLine, ...]
    action: str
    to: str
    back: str
    form: FormState


def order_line(found: Site, line: BreachLine) -> OrderLine:
    kept = f"Kept knowingly since {show_day(line.kept.on_day, found.today)}: {line.kept.why}" if line.kept else ""
    return OrderLine(line.words, line.detail, line.href, kept)


def order_lines(session: Session, found: Site, which: Iterable[BreachLine] | None = None) -> tuple[OrderLine, ...]:
    """Every hold point the order breaks today, or those of `which`."""
    return tuple(order_line(found, one) for one in (breach_lines(session, found) if which is None else which))


def order_breaks_page(
    here: Here, found: Site, lines: tuple[BreachLine, ...], moved: str, to: str, back: str, form: FormState
) -> OrderBreaksPage:
    count = len({line.words for line in lines})
    heading = "Not moved: a hold point would be broken" if count == 1 else f"Not moved: {plural(count, 'hold point')}"
    return OrderBreaksPage(
        sheet=here.sheet("P1", "The order", heading),
        heading=heading if count == 1 else f"{heading} would be broken",
        moved=moved,
        lines=tuple(order_line(found, line) for line in lines),
        action=here.path,
        to=to,
        back=back,
        form=form,
    )
