"""The legend of a drawing: only what is on it.

Colours follow the public marking colours for buried lines (APWA Uniform Color Code); each has its letter beside it.
"""

from dataclasses import dataclass
from functools import lru_cache

from webapp.surfaces.rules.drawing import Layer, Pens, line, rect
from webapp.surfaces.rules.elevation import THROUGH, Facts
from webapp.surfaces.rules.lines import MARKERS, colour_of, pen_of
from webapp.surfaces.rules.symbols import PLATES, has_symbol, symbol

WIDTH, HEIGHT = 52, 28
SERVICES = {
    "electric": "electric",
    "data": "data",
    "water": "water",
    "drain": "drain",
    "vent": "vent",
    "gas": "gas",
    "air": "air",
    "other": "other",
}
MARKING = (
    "Colours follow the public marks for buried lines (APWA Uniform Color Code): red is electric, not hot water. "
    "Purple, there reclaimed water, is air and other things here. Letters say the same."
)


@dataclass(frozen=True, slots=True)
class Sign:
    """One line of the legend: what is drawn and what it means."""

    drawn: Layer
    words: str


def legend(facts: Facts) -> tuple[Sign, ...]:
    """Services first, then things by kind, then what the surface itself is drawn with."""
    plain = [run for run in facts.runs if run.line_kind not in MARKERS]
    services = {run.service for run in plain} | {thing.service for thing in facts.things}
    signs = [_service(service) for service in SERVICES if service in services]
    signs += [
        _line(pen, f"{letters} {kind}", letters, "halo")
        for kind, (pen, letters) in MARKERS.items()
        if any(run.line_kind == kind for run in facts.runs)
    ]
    pens = {thing.kind: colour_of(thing.service) for thing in reversed(facts.things)}
    signs += [_kind(kind, pens[kind]) for kind in sorted(pens) if has_symbol(kind)]
    if any(not has_symbol(kind) and kind != "blocking" for kind in pens):
        signs.append(_kind("other thing", "l2"))
    if "blocking" in pens:
        signs.append(_blocking())
    if facts.openings:
        signs.append(_opening())
    if any(thing.replaced for thing in facts.things) or any(run.replaced for run in facts.runs):
        signs.append(_line("l2 hid", "moved or replaced since"))
    if facts.through or facts.through_runs:
        signs.append(_line(THROUGH, "in the other face"))
    return tuple(signs)


@lru_cache(maxsize=64)
def _line(pen: str, words: str, letter: str = "", lettered: str = "") -> Sign:
    pens, middle = Pens(), HEIGHT / 2
    pens.draw(line(0, middle, WIDTH, middle), pen)
    if letter:
        pens.write(WIDTH / 2, middle + 5.5, letter.upper(), f"mid {lettered or letter}")
    return Sign(pens.layer(), words)


def _service(service: str) -> Sign:
    letter = colour_of(service)
    return _line(pen_of(service), f"{letter.upper()} {SERVICES[service]}", letter)


@lru_cache(maxsize=64)
def _kind(kind: str, pen: str) -> Sign:
    pens = Pens()
    drawn = symbol(kind, WIDTH / 2, HEIGHT / 2, pen, 1 if kind in PLATES else 0)
    pens.draw_all(drawn.paths)
    pens.texts.extend(drawn.texts)
    return Sign(pens.layer(), kind)


@lru_cache(maxsize=64)
def _blocking() -> Sign:
    pens = Pens()
    pens.draw(rect(3, 6, WIDTH - 6, HEIGHT - 12), "l2 f-paper")
    pens.draw(line(3, HEIGHT - 6, WIDTH - 3, 6), "l1")
    return Sign(pens.layer(), "blocking")


@lru_cache(maxsize=64)
def _opening() -> Sign:
    pens = Pens()
    pens.draw(rect(4, 4, WIDTH - 8, HEIGHT - 8), "l3 f-paper")
    pens.draw(line(4, 4, WIDTH - 4, HEIGHT - 4) + line(4, HEIGHT - 4, WIDTH - 4, 4), "l1 hid")
    return Sign(pens.layer(), "opening")
