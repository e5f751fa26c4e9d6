"""Working alone, on the first page: whom I told, or what to tell before such work is begun."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.plan.guard import Here
from webapp.plan.rules.dangers import NO_PROMISE, how_words
from webapp.plan.store.dangers import dangers_of
from webapp.readiness.rules import keys
from webapp.readiness.store import Site
from webapp.today.rules.fits import Chance, in_hand
from webapp.workdays.store.alone import open_told

NAMED = 2


@dataclass(frozen=True, slots=True)
class AloneToday:
    """`told` is empty while nobody was told; then `work` names what could be begun alone. `over`: the hour has come."""

    told: str
    over: bool
    work: tuple[str, ...]
    says: str
    href: str


def alone_today(session: Session, here: Here, found: Site, chance: Chance, *, over: bool) -> AloneToday | None:
    """None where nobody was told and nothing that can be begun now is no work for one alone."""
    told = open_told(session, here.build.id)
    href = f"{here.base}/alone"
    if told is not None:
        return AloneToday(told.words(), over, (), NO_PROMISE, href)
    if chance.helper:
        return None
    dangers = dangers_of(session, here.build.id)
    tasks = [root.node for root in in_hand(found.network.every_root(), chance) if root.node.kind == "task"]
    work = [(node.title, dangers.get(keys.id_of(node.key))) for node in tasks]
    named = tuple(f"“{title}” is done {how_words(found_for)}" for title, found_for in work if found_for)
    return AloneToday("", over=False, work=named[:NAMED], says=NO_PROMISE, href=href) if named else None
