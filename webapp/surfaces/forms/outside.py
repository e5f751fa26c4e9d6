"""A surface measured anew: what would lie outside it is asked about before it is saved."""

from collections.abc import Iterable
from dataclasses import replace

from webapp.core.forms import Reader, Submitted
from webapp.surfaces.actions import SurfaceDraft
from webapp.surfaces.rules.corners import along
from webapp.surfaces.rules.tagging import openings_of, runs_of, things_of
from webapp.surfaces.rules.within import names_outside
from webapp.surfaces.store import ItemFacts, OpeningFacts, RunFacts
from webapp.values.words import join_words


def ask_outside(
    sent: Submitted,
    draft: SurfaceDraft,
    items: Iterable[ItemFacts],
    openings: Iterable[OpeningFacts],
    runs: Iterable[RunFacts],
) -> None:
    """Asks once about what would lie outside the surface as it is measured now. Raises BadForm with all names."""
    placed = (replace(one, x_nm=along(draft, one.from_corner, one.typed_nm)) for one in items)
    names = names_outside(draft.length_nm, draft.height_nm, things_of(placed), openings_of(openings), runs_of(runs))
    reader = Reader(sent)
    if names and not reader.flag("outside"):
        verb = "lies" if len(names) == 1 else "lie"
        reader.wrong("outside", f"With these measures {join_words(names)} {verb} outside.")
    reader.done()
