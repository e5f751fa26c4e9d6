"""Measures of a drawing: a chain of openings, running measures from the named corner and the floor, the scale bar."""

from collections.abc import Sequence
from functools import lru_cache

from webapp.surfaces.rules.drawing import LETTER, Pens, Scale, Text, circle, lettered, line, rect, show
from webapp.surfaces.rules.sketch import scale_bar
from webapp.values.length import show_length

GAP, TURNED_GAP = 22, 25
"""between the lines of lettering of running measures: fractions stand one figure above the other"""

CLEAR = 16
"""of lettering above the line of the floor"""


def spread(wanted: Sequence[float], gap: float, least: float, most: float) -> list[float]:
    """Positions in the same order, each as near to the wanted one as `gap` to its neighbours allows, within the ends.

    Neighbours that crowd are pooled about their mean (isotonic regression by pooling adjacent violators).
    """
    pools: list[tuple[float, int]] = []
    for at, value in enumerate(wanted):
        pools.append((value - at * gap, 1))
        while len(pools) > 1 and pools[-2][0] > pools[-1][0]:
            (a, m), (b, n) = pools[-2:]
            pools[-2:] = [((a * m + b * n) / (m + n), m + n)]
    flat = [mean for mean, count in pools for _ in range(count)]
    last = most - (len(flat) - 1) * gap
    return [max(least, min(last, mean)) + at * gap for at, mean in enumerate(flat)]


def thinned(values: Sequence[int], most: int) -> list[int]:
    """At most so many of the values in order, evenly left out: the table has them all."""
    found = sorted(set(values))
    if len(found) <= most:
        return found
    return sorted({found[at * (len(found) - 1) // max(1, most - 1)] for at in range(most)}) if most > 0 else []


def measured(nm: int, unit: str) -> str:
    """A length as it is lettered in a drawing, where "about" is one sign."""
    return show_length(nm, unit).replace("about ", "~")


def measure_along(pens: Pens, values: Sequence[int], scale: Scale, top: float, unit: str) -> float:
    """Running measures from the corner, 0 at a small circle. Answers how far down they reach.

    Crowded ones are staggered in two rows: the leaders of the lower row pass between the lettering of the upper one.
    """
    least, most = scale.left + 24, max(scale.left + 24, scale.right)
    shown = thinned([value for value in values if value > 0], int((most - least) // (TURNED_GAP / 2)) + 1)
    rows = 2 if len(shown) > (most - least) // TURNED_GAP + 1 else 1
    places = spread([scale.x(value) for value in shown], TURNED_GAP / rows, least, most)
    deep = 14 + 7.6 * max((len(measured(value, unit)) for value in shown), default=0)
    leaders = []
    for at, (value, place) in enumerate(zip(shown, places, strict=True)):
        end = top + 34 + (at % rows) * deep
        leader, text = _hung(scale.x(value), place, top, end, measured(value, unit))
        leaders.append(leader)
        pens.texts.append(text)
    zero = scale.left
    leaders.append(line(zero, top, zero, top + 25) + circle(zero, top + 30, 4.5))
    pens.write(zero, top + 54, "0", "mid")
    pens.draw("".join(leaders), "l1")
    return max(top + 60, top + 34 + rows * deep)


@lru_cache(maxsize=512)
def _hung(x: float, place: float, top: float, end: float, words: str) -> tuple[str, Text]:
    """A measure hung below `x` at its place, where it reads upwards to `end`: its leader and its lettering."""
    leader = f"M{show(x)} {show(top)}v6L{show(place)} {show(top + 26)}V{show(end - 4)}"
    return leader, lettered(place + 5.5, end, words, "end", turned=True)


def measure_across(pens: Pens, values: Sequence[tuple[int, bool]], scale: Scale, unit: str, kept: float) -> None:
    """Heights above the floor (or depths), on the side each lies nearer to (True: right), lettering level.

    At the left `kept` units above the floor are left to its own mark, at the right enough for its line.
    """
    for right in (False, True):
        low = max(scale.top, scale.base - (min(kept, CLEAR) if right else kept))
        shown = thinned([value for value, side in values if side == right], int((low - scale.top) // GAP) + 1)
        shown.sort(key=scale.y)
        places = spread([scale.y(value) for value in shown], GAP, scale.top, low)
        way, edge = (1, scale.right) if right else (-1, scale.left)
        leaders = ""
        for value, place in zip(shown, places, strict=True):
            start, bend = f"M{show(edge + 7 * way)} {show(scale.y(value))}", f"L{show(edge + 24 * way)} {show(place)}"
            leaders += f"{start}h{7 * way}{bend}h{6 * way}"
            words = measured(value, unit)
            room = scale.left - LETTER * len(words)  # as much on either side: it is drawn in the middle of its sheet
            pens.write(edge + min(34, room) * way, place + 5.5, words, "" if right else "end")
        if leaders:
            pens.draw(leaders, "l1")


def letter_low_corners(pens: Pens, corners: tuple[str, str], scale: Scale) -> None:
    """The two corners of a plan's lower edge, beside it; empty names are left out."""
    for x, corner, pen in ((scale.left - 10, corners[0], "b end"), (scale.right + 10, corners[1], "b")):
        if corner:
            pens.write(x, scale.base + 30, f"{corner} corner", pen)


def measure_chain(pens: Pens, edges: Sequence[int], scale: Scale, y: float, unit: str) -> None:
    """From edge to edge with oblique ticks; where the words are wider than their stretch they stand a step higher."""
    at = sorted(set(edges))
    if len(at) < 2:
        return
    xs = [scale.x(edge) for edge in at]
    ends = "".join(line(x, y - 8, x, y + 8) for x in xs)
    ticks = "".join(f"M{show(x - 5)} {show(y + 5)}l10 -10" for x in xs)
    pens.draw(line(xs[0], y, xs[-1], y) + ends, "l1")
    pens.draw(ticks, "l2")
    taken = [float("-inf")] * 3
    for first, second, x1, x2 in zip(at, at[1:], xs, xs[1:], strict=False):
        words = measured(second - first, unit)
        half, middle = LETTER * len(words) / 2, (x1 + x2) / 2
        level = 0 if 2 * half + 6 < x2 - x1 else 1
        while level < 2 and taken[level] > middle - half:
            level += 1
        if taken[level] > middle - half:
            continue
        taken[level] = middle + half + 8
        pens.write(middle, y - 7 - 19 * level, words, "mid")


def draw_bar(pens: Pens, scale: Scale, y: float, unit: str) -> None:
    """A bar of four parts below the corner, filled by turns; its length is exactly what it says."""
    whole = scale_bar(0, 0, scale.length_nm, scale.length_nm, unit)
    length = whole.length * scale.along
    left = scale.left
    for part in range(4):
        x = left + length * part / 4
        pens.draw(rect(x, y, length / 4, 8), "l1 f-ink" if part % 2 == 0 else "l1 f-paper")
    pens.write(left, y - 6, "0", "mid")
    pens.write(left + length, y - 6, whole.words, "mid")
