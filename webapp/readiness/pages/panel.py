"""What stops one task, as a panel in its page: its direct needs, the roots behind them, and what it frees."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.sheets import Sheet
from webapp.plan.guard import Here
from webapp.readiness.pages.lines import SHOWN, Line, owed_lines
from webapp.readiness.pages.order import OrderLine, order_lines
from webapp.readiness.rules import keys
from webapp.readiness.rules.answers import stops_sentence
from webapp.readiness.rules.wording import step_words
from webapp.readiness.store import site
from webapp.readiness.store.hold_points import breach_lines
from webapp.values.errors import NotFound
from webapp.values.words import join_words


@dataclass(frozen=True, slots=True)
class StopsPanel:
    sheet: Sheet
    title: str
    sentence: str
    stops: tuple[Line, ...]
    wishes: tuple[Line, ...]
    more: int
    frees: str
    whole_href: str
    back: str
    breaches: tuple[OrderLine, ...]


def stops_panel(session: Session, here: Here, task_id: int) -> StopsPanel:
    found = site(session, here.build, here.today)
    key = keys.task(task_id)
    if key not in found.network:
        raise NotFound("There is no such task in this build.")
    network, node = found.network, found.network.node(key)
    owed = network.unmet(key)
    hard = [need for need in owed if need.hard]
    if node.settled:
        sentence = "It is done." if not hard else "It is done, but what it rests on was taken back."
    elif not hard:
        sentence = "Nothing stops it. It can start today."
    else:
        sentence = stops_sentence(network.roots(key))
    freed = network.frees(key)
    after = [f"{step_words(one)} (after its wait)" for one in freed.later]
    return StopsPanel(
        sheet=here.sheet("G2", "What stops it", f"What stops “{node.title}”?"),
        title=node.title,
        sentence=sentence,
        stops=owed_lines(network, hard[:SHOWN]),
        wishes=owed_lines(network, [need for need in owed if not need.hard][:SHOWN]),
        more=max(0, len(hard) - SHOWN),
        frees=join_words([*(step_words(one) for one in freed.now), *after][:4]),
        whole_href=f"{here.base}/what-stops?task={task_id}",
        back=f"{here.base}/tasks/{task_id}",
        breaches=order_lines(session, found, (one for one in breach_lines(session, found) if one.broken.what == key)),
    )
