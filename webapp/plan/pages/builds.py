"""The list of builds, and the first start."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.plan import store
from webapp.plan.pages.lots import lot_choices
from webapp.plan.pages.place import Outside
from webapp.plan.pages.wording import UNITS, Options


@dataclass(frozen=True, slots=True)
class BuildsPage:
    sheet: Sheet
    builds: tuple[store.BuildFacts, ...]
    form: FormState
    units: Options
    lots: Options


def builds_page(session: Session, outside: Outside, form: FormState | None = None) -> BuildsPage:
    builds = store.list_builds(session)
    title = "Builds" if builds else "A clean sheet"
    return BuildsPage(
        sheet=outside.sheet("G7", "Builds", title),
        builds=builds,
        form=form or FormState.of(currency=builds[0].currency if builds else "USD", length_unit="ft-in"),
        units=UNITS,
        lots=lot_choices(session),
    )
