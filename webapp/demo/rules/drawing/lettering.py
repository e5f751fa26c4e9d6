"""Single-stroke lettering in the manner of a template and pen, drawn for this project.

Each glyph is a list of strokes in a field 4 wide and 6 high, written as pairs of digits: `20 26` is a vertical in the
middle. The field's top left is `00`.
"""

_GLYPHS = {
    "0": "10 30 41 45 36 16 05 01 10",
    "1": "11 20 26",
    "2": "01 10 30 41 42 06 46",
    "3": "01 10 30 41 42 33 23;33 44 45 36 16 05",
    "4": "36 30 04 44",
    "5": "40 10 03 33 44 45 36 16 05",
    "6": "30 10 01 05 16 36 45 44 33 03",
    "7": "00 40 16",
    "8": "13 02 01 10 30 41 42 33 13 04 05 16 36 45 44 33",
    "9": "43 13 02 01 10 30 41 45 36 16",
    "A": "06 20 46;14 34",
    "B": "03 33 42 41 30 00 06 36 45 44 33",
    "C": "41 30 10 01 05 16 36 45",
    "D": "00 06 26 44 42 20 00",
    "E": "40 00 06 46;03 33",
    "F": "40 00 06;03 33",
    "G": "41 30 10 01 05 16 36 45 43 23",
    "H": "00 06;40 46;03 43",
    "I": "20 26",
    "J": "40 45 36 16 05",
    "K": "00 06;40 03 46",
    "L": "00 06 46",
    "M": "06 00 23 40 46",
    "N": "06 00 46 40",
    "O": "10 30 41 45 36 16 05 01 10",
    "P": "06 00 30 41 42 33 03",
    "Q": "10 30 41 45 36 16 05 01 10;34 46",
    "R": "06 00 30 41 42 33 03;23 46",
    "S": "41 30 10 01 02 13 33 44 45 36 16 05",
    "T": "00 40;20 26",
    "U": "00 05 16 36 45 40",
    "V": "00 26 40",
    "W": "00 16 22 36 40",
    "X": "00 46;40 06",
    "Y": "00 23 40;23 26",
    "Z": "00 40 06 46",
    ".": "25 26",
    ",": "25 17",
    ":": "21 22;24 25",
    "-": "13 33",
    "/": "06 40",
    "'": "20 22",
    '"': "10 12;30 32",
}
_ADVANCE = 5.6
_NARROW = {" ": 3.4, ".": 2.6, ",": 2.6, ":": 3.0, "'": 2.6, "1": 4.2, "I": 3.4}

Stroke = tuple[tuple[float, float], ...]


def strokes(text: str, centre: tuple[float, float], size: float) -> list[Stroke]:
    """The strokes of `text` (capitals, figures, a few marks; anything else leaves a gap) centred on `centre`."""
    unit = size / 6
    length = sum(_NARROW.get(letter, _ADVANCE) for letter in text) - 1.6
    left, top = centre[0] - length * unit / 2, centre[1] - size / 2
    found: list[Stroke] = []
    for letter in text:
        advance = _NARROW.get(letter, _ADVANCE)
        inset = min(0.0, (advance - _ADVANCE) / 2)
        glyph = filter(None, _GLYPHS.get(letter, "").split(";"))
        found.extend(
            tuple((left + (int(p[0]) + inset) * unit, top + int(p[1]) * unit) for p in stroke.split())
            for stroke in glyph
        )
        left += advance * unit
    return found
