"""What needs what, as the builder types it. A need that would close a circle is refused."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass

from sqlmodel import Session

from webapp.core import clock
from webapp.plan import store
from webapp.plan.models import Need, TaskChange
from webapp.plan.rules.ends import NAMELESS, end_key, kind_of, number_of
from webapp.plan.rules.graph import Link, loop_with
from webapp.plan.rules.kinds import NeedKind, Strength
from webapp.plan.store import BuildFacts, NeedFacts, TaskFacts
from webapp.values.errors import NotFound, RuleBroken
from webapp.values.verdict import Reason, Verdict, Way
from webapp.values.words import plural

LEAVE = "Leave it as it was"


@dataclass(frozen=True, slots=True)
class TypedNeed:
    """`what` needs `needs`; both are tasks unless their kind says otherwise. A surface of 0 is none."""

    what_id: int
    needs_id: int
    strength: str = Strength.HARD.value
    lag_days: int = 0
    reason: str = ""
    what_kind: str = NeedKind.TASK.value
    what_surface_id: int = 0
    needs_kind: str = NeedKind.TASK.value
    needs_surface_id: int = 0


class Circle(RuleBroken):
    """A need refused because it would close a circle. `titles`: each needs the next one, the last needs the first."""

    def __init__(self, verdict: Verdict, heading: str, ways_on: tuple[Way, ...], titles: tuple[str, ...]) -> None:
        super().__init__(verdict, heading, ways_on)
        self.titles = titles


def add_need(session: Session, build: BuildFacts, typed: TypedNeed) -> Need:
    """Raises RuleBroken for a need of itself and for one that is there already, Circle for one that closes a circle."""
    known = [_link(need) for need in store.list_needs(session, build.id)]
    link = _link(typed)
    loop = loop_with(known, link)
    tasks = _tasks_named(session, build.id, (*(loop or ()), link.waiter, link.needs))
    _refuse_strangers(tasks, link)
    title = _title(tasks, link.waiter)
    if link.waiter == link.needs:
        raise _refusal(build, "Not saved: a task cannot wait for itself", f"{title} would need {title}.", link, tasks)
    if any((other.waiter, other.needs) == (link.waiter, link.needs) for other in known):
        needed = _title(tasks, link.needs)
        raise _refusal(build, "Not saved: it is there already", f"{title} already needs {needed}.", link, tasks)
    if loop:
        raise _loop_refused(build, loop, tasks)
    need = Need(build_id=build.id, **asdict(typed))
    session.add(need)
    session.flush()
    return need


def drop_need(session: Session, build_id: int, need_id: int) -> None:
    """Take out a typed need; that it was there stays in the history of the task that had it."""
    need = session.get(Need, need_id)
    if need is None or need.build_id != build_id:
        raise NotFound("This need is not there any more.")
    if need.what_kind == NeedKind.TASK:
        needed = end_key(need.needs_kind, need.needs_id, need.needs_surface_id)
        title = _title(_tasks_named(session, build_id, (needed,)), needed)
        wait = f", then {plural(need.lag_days, 'day')}" if need.lag_days else ""
        session.add(
            TaskChange(
                task_id=need.what_id,
                was=f"needed {title}{wait}",
                became="need taken out",
                why=need.reason,
                at=clock.now(),
            )
        )
    session.delete(need)
    session.flush()


def _link(need: NeedFacts | TypedNeed) -> Link:
    waiter = end_key(need.what_kind, need.what_id, need.what_surface_id)
    needs = end_key(need.needs_kind, need.needs_id, need.needs_surface_id)
    return Link(waiter, needs, need.strength == Strength.HARD, need.lag_days, need.reason)


def _tasks_named(session: Session, build_id: int, keys: tuple[str, ...]) -> Mapping[int, TaskFacts]:
    wanted = frozenset(number_of(key) for key in keys if kind_of(key) == NeedKind.TASK)
    return store.tasks_by_id(session, build_id, wanted)


def _refuse_strangers(tasks: Mapping[int, TaskFacts], link: Link) -> None:
    for key in (link.waiter, link.needs):
        if kind_of(key) == NeedKind.TASK and number_of(key) not in tasks:
            raise NotFound(store.NO_TASK)


def _title(tasks: Mapping[int, TaskFacts], key: str) -> str:
    if kind_of(key) == NeedKind.TASK and number_of(key) in tasks:
        return f"“{tasks[number_of(key)].title}”"
    return NAMELESS[kind_of(key)]


def _loop_refused(build: BuildFacts, loop: tuple[str, ...], tasks: Mapping[int, TaskFacts]) -> Circle:
    titles = [_title(tasks, key) for key in (*loop, loop[0])]
    refusal = _refusal(
        build,
        "Not saved: these would wait for each other",
        f"{' needs '.join(titles)}.",
        Link(loop[0], loop[1]),
        tasks,
        f"You asked for the first step now: {titles[0]} needs {titles[1]}. The rest is written down already.",
        loop,
    )
    plain = tuple(title.strip("“”") for title in titles[:-1])
    return Circle(refusal.verdict, refusal.heading, refusal.ways_on, plain)


def _refusal(
    build: BuildFacts,
    heading: str,
    sentence: str,
    link: Link,
    tasks: Mapping[int, TaskFacts],
    detail: str = "",
    look_at: tuple[str, ...] = (),
) -> RuleBroken:
    """A refusal that leads back to the task that would wait, and to each one of the circle."""

    def href(key: str) -> str:
        return f"{build.base}/tasks/{number_of(key)}" if kind_of(key) == NeedKind.TASK else f"{build.base}/what-stops"

    ways = [Way(LEAVE, href(link.waiter), f"Back to {_title(tasks, link.waiter)}")]
    ways += [
        Way(f"Look at {_title(tasks, key)}", href(key), "Take one of its needs out, or split it") for key in look_at
    ]
    return RuleBroken(Verdict((Reason(sentence[:1].upper() + sentence[1:], detail),)), heading, tuple(ways))
