"""On which lot a build stands, and which builds share it."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.plan.pages.place import Here
from webapp.plan.pages.wording import Options
from webapp.plan.store import list_builds
from webapp.plan.store.lots import list_lots
from webapp.values.own_words import own


@dataclass(frozen=True, slots=True)
class LotPage:
    sheet: Sheet
    lots: Options
    action: str
    back: str
    form: FormState


def lot_choices(session: Session) -> Options:
    """Each lot with the builds on it, after none at all."""
    builds = list_builds(session)
    on = {lot_id: [each.name for each in builds if each.lot_id == lot_id] for lot_id, _ in list_lots(session)}
    named = (
        (str(lot_id), f"{name} ({', '.join(on[lot_id])})" if on[lot_id] else name)
        for lot_id, name in list_lots(session)
    )
    return (("", "None"), *named)


def lot_page(session: Session, here: Here, form: FormState | None = None) -> LotPage:
    return LotPage(
        sheet=here.sheet("V1", own("Permits"), "The lot"),
        lots=lot_choices(session),
        action=f"{here.base}/lot",
        back=f"{here.base}/permits",
        form=form or FormState.of(lot=str(here.build.lot_id or "")),
    )
