"""What each kind of line carries, where it is listed, and whether it has a breaker."""

from webapp.surfaces.rules.kinds import LineKind

SERVICE_OF = {
    LineKind.FEEDER: "electric",
    LineKind.CIRCUIT: "electric",
    LineKind.GROUNDING: "electric",
    LineKind.LOW_VOLTAGE: "data",
    LineKind.WATER: "water",
    LineKind.DRAIN: "drain",
    LineKind.VENT: "vent",
    LineKind.CONDENSATE: "drain",
    LineKind.GAS: "gas",
    LineKind.DUCT: "air",
    LineKind.LINE_SET: "air",
    LineKind.TRACER: "other",
    LineKind.WARNING_TAPE: "other",
    LineKind.OTHER: "other",
}
"""the service, and so the letter and colour, of a line of each kind"""

GROUPS: tuple[tuple[str, tuple[LineKind, ...]], ...] = (
    ("Panel", (LineKind.FEEDER, LineKind.CIRCUIT, LineKind.GROUNDING)),
    ("Low voltage", (LineKind.LOW_VOLTAGE,)),
    ("Water and drains", (LineKind.WATER, LineKind.DRAIN, LineKind.VENT, LineKind.CONDENSATE)),
    ("Gas", (LineKind.GAS,)),
    ("Air", (LineKind.DUCT, LineKind.LINE_SET)),
    ("Other", (LineKind.TRACER, LineKind.WARNING_TAPE, LineKind.OTHER)),
)
"""the headings of the list and the kinds below each, in their order"""

FROM_PANEL = frozenset({LineKind.FEEDER, LineKind.CIRCUIT})
"""kinds with a breaker and a space in a panel"""
PANELS = frozenset({"panel", "sub-panel"})
"""kinds of things that a circuit begins at"""


def kind_order(kind: str) -> int:
    """The place of a kind in the list."""
    return [each for _, kinds in GROUPS for each in kinds].index(LineKind(kind))
