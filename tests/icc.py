"""A small wide-gamut colour profile, built by hand from published numbers, and what its colours are in sRGB.

Layout: ICC.1:2001-04, 6.1 (header), 6.2 (tag table), 6.5.2 (curveType), 6.5.20 (XYZType). Primaries: SMPTE EG 432-1
(P3) with a D65 white; sRGB: IEC 61966-2-1. Both are adapted to D50 by the Bradford matrix (ICC.1:2001-04, annex E).
The tone curve of the profile is a plain power of 2.2, so that nothing hangs on a second library.
"""

import struct

P3 = ((0.680, 0.320), (0.265, 0.690), (0.150, 0.060))
SRGB = ((0.640, 0.330), (0.300, 0.600), (0.150, 0.060))
D65 = (0.3127, 0.3290)
D50_XYZ = (0.9642, 1.0, 0.8249)
BRADFORD = ((0.8951, 0.2664, -0.1614), (-0.7502, 1.7135, 0.0367), (0.0389, -0.0685, 1.0296))
GAMMA = 2.2

Matrix = tuple[tuple[float, ...], ...]


def times(one: Matrix, other: Matrix) -> Matrix:
    columns = tuple(zip(*other, strict=True))
    return tuple(tuple(sum(a * b for a, b in zip(row, column, strict=True)) for column in columns) for row in one)


def inverse(m: Matrix) -> Matrix:
    (a, b, c), (d, e, f), (g, h, i) = m
    det = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g)
    adjugate = (
        (e * i - f * h, c * h - b * i, b * f - c * e),
        (f * g - d * i, a * i - c * g, c * d - a * f),
        (d * h - e * g, b * g - a * h, a * e - b * d),
    )
    return tuple(tuple(value / det for value in row) for row in adjugate)


def _xyz(x: float, y: float) -> tuple[float, float, float]:
    return x / y, 1.0, (1 - x - y) / y


def to_d50(primaries: tuple[tuple[float, float], ...]) -> Matrix:
    """Linear RGB to XYZ under D50."""
    columns = tuple(zip(*(_xyz(*xy) for xy in primaries), strict=True))
    white = tuple((value,) for value in _xyz(*D65))
    scale = times(inverse(columns), white)
    rgb_xyz = tuple(tuple(value * scale[n][0] for n, value in enumerate(row)) for row in columns)
    source, target = times(BRADFORD, white), times(BRADFORD, tuple((value,) for value in D50_XYZ))
    gains = tuple(tuple(target[n][0] / source[n][0] if n == m else 0.0 for m in range(3)) for n in range(3))
    return times(times(times(inverse(BRADFORD), gains), BRADFORD), rgb_xyz)


def wide_gamut() -> bytes:
    """The profile's bytes."""

    def xyz(values: tuple[float, ...]) -> bytes:
        return b"XYZ \0\0\0\0" + b"".join(struct.pack(">i", round(value * 65536)) for value in values)

    curve = b"curv\0\0\0\0" + struct.pack(">IH", 1, round(GAMMA * 256)) + b"\0\0"
    words = b"desc\0\0\0\0" + struct.pack(">I", 5) + b"wide\0" + b"\0" * 78 + b"\0" * 3
    columns = list(zip(*to_d50(P3), strict=True))
    parts = [(b"desc", words), (b"wtpt", xyz(D50_XYZ)), (b"cprt", b"text\0\0\0\0none\0\0\0\0")]
    parts += [(name, xyz(column)) for name, column in zip((b"rXYZ", b"gXYZ", b"bXYZ"), columns, strict=True)]
    parts += [(name, curve) for name in (b"rTRC", b"gTRC", b"bTRC")]
    table, data, offset = struct.pack(">I", len(parts)), b"", 128 + 4 + 12 * len(parts)
    for name, body in parts:
        table += name + struct.pack(">II", offset + len(data), len(body))
        data += body + b"\0" * (-len(body) % 4)
    header = struct.pack(">I4sI4s4s4s12s4s", 0, b"none", 0x02400000, b"mntr", b"RGB ", b"XYZ ", b"\0" * 12, b"acsp")
    header = header.ljust(68, b"\0") + b"".join(struct.pack(">i", round(value * 65536)) for value in D50_XYZ)
    body = header.ljust(128, b"\0") + table + data
    return struct.pack(">I", len(body)) + body[4:]


def wide_gamut_in_srgb(colour: tuple[int, int, int]) -> tuple[int, ...]:
    """The same colour in sRGB, clipped, rounded to whole steps of 255."""
    linear = tuple(((channel / 255) ** GAMMA,) for channel in colour)
    seen = times(inverse(to_d50(SRGB)), times(to_d50(P3), linear))
    return tuple(round(255 * _encoded(min(1.0, max(0.0, row[0])))) for row in seen)


def _encoded(value: float) -> float:
    return 12.92 * value if value <= 0.0031308 else 1.055 * value ** (1 / 2.4) - 0.055
