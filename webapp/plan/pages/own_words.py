"""What this builder calls the few general words that differ from place to place."""

from dataclasses import dataclass

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.plan.pages.place import Here
from webapp.values.own_words import GENERAL, own


@dataclass(frozen=True, slots=True)
class WordLine:
    """Studbay's own word, one and many, and the names of its two fields."""

    one: str
    many: str
    field_one: str
    field_many: str


@dataclass(frozen=True, slots=True)
class OwnWordsPage:
    sheet: Sheet
    lines: tuple[WordLine, ...]
    form: FormState
    action: str
    back: str


def own_words_page(here: Here, form: FormState | None = None) -> OwnWordsPage:
    said = dict(here.build.words)
    typed = {f"one-{one}": said.get(one, "") for one, _ in GENERAL}
    typed |= {f"many-{one}": said.get(many, "") for one, many in GENERAL}
    return OwnWordsPage(
        sheet=here.sheet("V2", own("Inspections"), "My own words"),
        lines=tuple(WordLine(one, many, f"one-{one}", f"many-{one}") for one, many in GENERAL),
        form=form or FormState.of(**typed),
        action=f"{here.base}/words",
        back=f"{here.base}/inspections",
    )
