"""Which offered pictures are wanted, and how much each matters."""

from webapp.core.forms import Reader, Submitted
from webapp.surfaces.actions import Chosen
from webapp.surfaces.rules.offers import Offers
from webapp.surfaces.rules.wanted import MUST, WISH


def read_chosen(sent: Submitted, offers: Offers) -> tuple[Chosen, ...]:
    """Every offer that the page showed, with how it is wanted. What came onto the surface since is offered again.

    Raises BadForm for one that was taken up or declined meanwhile.
    """
    reader = Reader(sent)
    keys = {offer.picture.key for offer in offers.open}
    shown = set(sent.texts("shown"))
    if shown - keys:
        reader.wrong("take", "The list has changed since this page was opened. Look through it once more.")
    wanted, wishes = (set(sent.texts(name)) for name in ("take", "wish"))
    reader.done()
    return tuple(
        Chosen(offer, (WISH if key in wishes else MUST) if key in wanted else "")
        for offer in offers.open
        if (key := offer.picture.key) in shown
    )
