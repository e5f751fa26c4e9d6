"""How the scenario's surfaces and hidden things are said in the words of the record."""

from collections.abc import Iterable, Mapping

from webapp.demo.rules.place_rows import Item, Run, Service
from webapp.surfaces.rules.ways import is_near

_ROUND = ("E", "S", "W", "N", "C", "SL", "TR", "GX")
_SIDES = {"N": "N", "E": "E", "S": "S", "W": "W", "GX": "E"}
_SERVICES = {
    "feeder": "electric",
    "ground": "electric",
    "circuit": "electric",
    "low voltage": "data",
    "water": "water",
    "drain": "drain",
    "condensate": "drain",
    "vent": "vent",
    "duct": "air",
    "line set": "air",
    "warning tape": "other",
    "tracer wire": "other",
}


def round_from_the_door(codes: Iterable[str]) -> list[str]:
    """The walls clockwise from the east door, then what is overhead, underfoot and outside. ValueError for another."""
    return sorted(codes, key=_ROUND.index)


def side_of(code: str) -> str:
    """The side of the building a wall stands on; empty for what has none."""
    return _SIDES.get(code, "")


def service_of(service: Service | None) -> str:
    """The service of a hidden thing; blocking, straps and the like belong to the framing."""
    return _SERVICES[service.kind] if service else "framing"


def kind_of(service: Service) -> str:
    """What its line is, in the record's words."""
    return "grounding" if service.kind == "ground" else service.kind


def poles_of(service: Service) -> int:
    return 2 if "two-pole" in service.note else 1


def ends_of(run: Run, items: Mapping[str, Item]) -> tuple[str, str]:
    """The things a run begins and ends at. Where both are the same one, it is only at the end it lies near."""
    if run.from_item != run.to_item or not run.from_item:
        return run.from_item, run.to_item
    item = items[run.from_item]
    begins, ends = (is_near(at, item.x_nm, item.y_nm, item.width_nm) for at in (run.points[0], run.points[-1]))
    return (item.id if begins else ""), (item.id if ends and not begins else "")


def slot_number(slot: str) -> int:
    """Picture 6 of E6."""
    return int("".join(char for char in slot if char.isdigit()))
