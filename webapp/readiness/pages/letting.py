"""Letting an owed thing go: my own evidence with a reason, or a hard stop by the authority's own word."""

from collections.abc import Iterable
from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.plan.guard import Here
from webapp.readiness.rules import keys
from webapp.readiness.rules.letting import mine_to_let_go, theirs_to_lift
from webapp.readiness.rules.network import Unmet
from webapp.readiness.store import site
from webapp.surfaces.store import get_surface
from webapp.values.dates import show_date

Option = tuple[str, str, str]
"""key of the node, its title, where it comes from"""


@dataclass(frozen=True, slots=True)
class LettingPage:
    """`skip` and `word` are two forms of one address, told apart by the field `by`."""

    sheet: Sheet
    surface_name: str
    mine: tuple[Option, ...]
    theirs: tuple[Option, ...]
    skip: FormState
    word: FormState
    action: str
    back: str


def _options(needs: Iterable[Unmet]) -> tuple[Option, ...]:
    return tuple((need.node.key, need.node.title, need.node.detail) for need in needs)


def letting_page(session: Session, here: Here, code: str, form: FormState | None = None) -> LettingPage:
    found = site(session, here.build, here.today)
    surface = get_surface(session, here.build.id, code)
    owed = found.network.unmet(keys.cover(surface.id))
    empty = FormState.of(on=show_date(here.today))
    by_authority = form is not None and form.value("by") == "authority"
    href = f"{here.base}/surfaces/{surface.code}"
    return LettingPage(
        sheet=here.sheet(f"W2-{surface.code}", "Before cover", f"{surface.name}: let something go", surface.facing),
        surface_name=surface.name,
        mine=_options(mine_to_let_go(owed)),
        theirs=_options(theirs_to_lift(owed)),
        skip=empty if form is None or by_authority else form,
        word=form if form is not None and by_authority else empty,
        action=f"{href}/let-go",
        back=f"{href}/before-cover",
    )
