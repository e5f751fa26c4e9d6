"""Test values as they are published, to be taken over into a form with their clause. A reference, never a verdict.

Local offices ask for other values; what stands on the handout goes first.
"""

from dataclasses import dataclass

from webapp.linetests.rules.kinds import TestKind

LOCAL = "Ask your office: towns differ."


@dataclass(frozen=True, slots=True)
class Published:
    """One value. `note` says where it does not fit, or that it is from memory."""

    key: str
    kind: TestKind
    of: str
    wanted: str
    source: str
    note: str


VALUES: tuple[Published, ...] = (
    Published(
        "dwv-water",
        TestKind.WATER,
        "Drains and vents, water",
        "10 ft of water above the highest fitting, 15 min",
        "IRC P2503.5.1 (older editions P2503.4.1)",
        f"{LOCAL} One asks for 5 ft under a slab.",
    ),
    Published(
        "sewer-water",
        TestKind.WATER,
        "Building sewer, water",
        "10 ft of water, 15 min",
        "IRC P2503.4",
        LOCAL,
    ),
    Published(
        "dwv-air",
        TestKind.AIR,
        "Drains and vents, air",
        "5 psi or 10 in of mercury, 15 min, no air added",
        "IRC P2503.5.1 (the 5 psi from a secondary source)",
        "Air on plastic pipe can burst it and is often not allowed. Ask your office and read the maker's paper.",
    ),
    Published(
        "supply-water",
        TestKind.WATER_PRESSURE,
        "Water supply, water",
        "working pressure or more, 15 min",
        "IRC P2503.7",
        LOCAL,
    ),
    Published(
        "supply-air",
        TestKind.AIR,
        "Water supply, air, pipe that is not plastic",
        "50 psi, 15 min",
        "IRC P2503.7",
        "Not on plastic pipe unless its maker allows it. Air under pressure is dangerous: stand clear.",
    ),
    Published(
        "gas",
        TestKind.AIR,
        "Gas piping",
        "1½ times the working pressure, not less than 3 psi, 10 min",
        "IFGC 406.4.1; IRC G2417.4.1 and G2417.4.2",
        "Never oxygen, never fuel gas (from memory). Gas is for licensed people; towns ask for 3 to 20 psi.",
    ),
    Published(
        "liner",
        TestKind.FLOOD,
        "Shower liner",
        "filled 2 in deep, 15 min",
        "IRC P2503.6, from memory, unverified",
        "24 hours in some towns.",
    ),
)
GAUGE = "For 10 psi or less the gauge is to show tenths of a psi (IRC P2503.9). Your local authority decides."


def published(key: str) -> Published | None:
    return next((one for one in VALUES if one.key == key), None)
