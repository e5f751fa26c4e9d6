"""The small section drawn for a surface: which layers of the sprite are shown."""

from webapp.surfaces.rules.kinds import SurfaceKind

_LYING = {SurfaceKind.CEILING, SurfaceKind.FLOOR}


def layers(kind: str, has_items: bool, covered: bool, evidence: bool) -> str:
    """Letters of the sprite, one per layer.

    While a surface is open this sheet does not know whether the inspector has seen it, so its plates are drawn plain
    (P), neither inked (C, seen) nor crossed (O, not seen): `Before cover` says that. A closing carries its evidence;
    without any the plates stay crossed, so that closing unseen shows at a glance.
    """
    if kind == SurfaceKind.TRENCH:
        return _down("gh" if has_items else "g", "j", covered, "i" if evidence else "")
    if kind == SurfaceKind.SLAB:
        return _down("kl" if has_items else "k", "n", covered, "m" if evidence else "")
    if covered:
        return "ACDF" if evidence else "AODF"
    return "APB" if has_items else "AP"


def _down(open_: str, closed: str, covered: bool, seen: str) -> str:
    return open_ + seen + closed if covered else open_


def is_turned(kind: str) -> bool:
    """Whether the mark is drawn lying down."""
    return kind in _LYING
