"""Reads back how far the strokes and the lettering of a drawing reach, apart from the code that draws them."""

import re

Extent = tuple[float, float, float, float]
TOKEN = re.compile(r"[A-Za-z]|-?[\d.]+")
TAKES = {"M": 2, "L": 2, "l": 2, "h": 1, "v": 1, "H": 1, "V": 1, "a": 7, "z": 0}
LETTER = 7.6
"""mean width of a letter of 16 px lettering as measured on a screen"""


def extent(d: str) -> Extent:
    """Left, top, right, bottom of path data; an arc counts as the box of its half circle."""
    x = y = start_x = start_y = 0.0
    reached: list[tuple[float, float]] = []
    for command, numbers in _commands(d):
        if command == "a":
            reached += [(x, y - numbers[1]), (x, y + numbers[1])]
        if command in "ML":
            x, y = numbers
        elif command in "la":
            x, y = x + numbers[-2], y + numbers[-1]
        elif command == "z":
            x, y = start_x, start_y
        elif command in "hH":
            x = numbers[0] + (x if command == "h" else 0)
        else:
            y = numbers[0] + (y if command == "v" else 0)
        if command == "M":
            start_x, start_y = x, y
        reached.append((x, y))
    across, down = zip(*reached, strict=True)
    return min(across), min(down), max(across), max(down)


def _commands(d: str) -> list[tuple[str, list[float]]]:
    found, command, numbers = [], "", []
    for token in TOKEN.findall(d):
        if token.isalpha():
            command, numbers = token, []
        else:
            numbers.append(float(token))
        if len(numbers) == TAKES[command]:
            found.append((command, numbers))
            command, numbers = ("L" if command == "M" else command), []
    return found


def text_extent(text) -> Extent:
    """The box of one line of lettering, by its anchor and the mean width of a letter."""
    x, y, width = float(text.x), float(text.y), LETTER * len(text.words)
    classes = text.pen.split()
    before = width if "end" in classes else width / 2 if "mid" in classes else 0
    if text.turned:
        return x - 12, y - width + before, x + 4, y + before
    return x - before, y - 12, x - before + width, y + 4
