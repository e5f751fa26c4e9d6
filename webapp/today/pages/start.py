"""What can be started with the time, hands and weather there are."""

from collections.abc import Iterable
from dataclasses import dataclass

from webapp.readiness.rules.network import Network, Root
from webapp.readiness.rules.wording import ready_words, step_words
from webapp.readiness.store import Site
from webapp.today.rules.fits import TIMES, Chance, in_hand
from webapp.values.duration import show_minutes
from webapp.values.words import join_words

SHOWN, MOST_SHOWN = 3, 40


@dataclass(frozen=True, slots=True)
class Choice:
    words: str
    href: str
    current: bool


@dataclass(frozen=True, slots=True)
class StartLine:
    title: str
    detail: str
    time: str
    href: str


@dataclass(frozen=True, slots=True)
class CanStart:
    words: str
    times: tuple[Choice, ...]
    hands: tuple[Choice, ...]
    weather: tuple[Choice, ...]
    lines: tuple[StartLine, ...]
    more: int
    more_href: str


def _href(base: str, chance: Chance, *, whole: bool = False) -> str:
    hands, weather = ("helper" if chance.helper else "alone"), ("dry" if chance.dry else "wet")
    return f"{base}/today?time={chance.minutes}&hands={hands}&weather={weather}{'&all=1' if whole else ''}#start"


def freed_words(network: Network, root: Root) -> str:
    """ "Frees x and y." or empty."""
    named = [step_words(network.node(key)) for key in root.frees[:2]]
    if len(root.frees) > 2:
        named.append(f"{len(root.frees) - 2} more")
    return f"Frees {join_words(named)}." if named else ""


def start_line(found: Site, root: Root) -> StartLine:
    node = root.node
    where = join_words([found.record.surface[one].code for one in node.surface_ids if one in found.record.surface])
    sources = {
        "task": "",
        "picture": f"Picture of {where}.",
        "shot": node.detail,
        "count": f"On {where}.",
        "offsets": f"On {where}.",
    }
    detail = sources.get(node.kind, node.detail)
    frees = freed_words(found.network, root)
    time = show_minutes(node.minutes) if node.minutes is not None else ""
    return StartLine(ready_words(root), f"{detail} {frees}".strip() or node.detail, time, node.href)


def _together(lines: Iterable[tuple[Root, StartLine]]) -> list[StartLine]:
    """Pictures of one surface are one errand: they stand in one line, at the place of the first."""
    made: list[StartLine] = []
    pictures: dict[tuple[int, ...], tuple[int, list[str]]] = {}
    for root, line in lines:
        if root.node.kind != "picture":
            made.append(line)
            continue
        at, numbers = pictures.setdefault(root.node.surface_ids, (len(made), []))
        numbers.append(root.node.title.partition(":")[0].removeprefix("Picture "))
        if len(numbers) == 1:
            made.append(line)
        else:
            made[at] = StartLine(f"Pictures {join_words(numbers)}", line.detail, "", made[at].href)
    return made


def can_start(found: Site, chance: Chance, *, whole: bool) -> CanStart:
    base = found.build.base
    roots = in_hand(found.network.every_root(), chance)
    lines = _together((root, start_line(found, root)) for root in roots)
    shown = lines[: MOST_SHOWN if whole else SHOWN]
    return CanStart(
        words=chance.words,
        times=tuple(
            Choice(words, _href(base, Chance(minutes, chance.helper, chance.dry)), minutes == chance.minutes)
            for minutes, words in TIMES
        ),
        hands=tuple(
            Choice(words, _href(base, Chance(chance.minutes, helper, chance.dry)), helper == chance.helper)
            for helper, words in ((False, "alone"), (True, "with help"))
        ),
        weather=tuple(
            Choice(words, _href(base, Chance(chance.minutes, chance.helper, dry)), dry == chance.dry)
            for dry, words in ((True, "dry"), (False, "wet"))
        ),
        lines=tuple(shown),
        more=len(lines) - len(shown),
        more_href=_href(base, chance, whole=True) if not whole else f"{base}/what-stops",
    )
