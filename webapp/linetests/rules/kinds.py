"""The words of tests on lines."""

from enum import StrEnum


class TestKind(StrEnum):
    """How a line is tried."""

    __test__ = False
    WATER = "filled with water"
    AIR = "air pressure"
    WATER_PRESSURE = "water pressure"
    FLOOD = "pan flooded"
    SMOKE = "smoke"
    CONTINUITY = "continuity"
    INSULATION = "insulation resistance"
    NETWORK = "network, end to end"
    MOISTURE = "moisture"
    AIR_TIGHT = "air tightness"
    OTHER = "other"


class TestOutcome(StrEnum):
    """What the builder saw. Never a verdict."""

    __test__ = False
    RUNNING = "still on"
    HELD = "held"
    MOVED = "did not hold"
    UNSURE = "not sure"
    BROKEN_OFF = "broken off"
