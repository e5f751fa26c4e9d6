"""Whom the scenario hired: its suppliers of labour, what they did, and what is still waited for."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Trade:
    """One hired trade. `tasks`, `places`, `lines`, `papers` and `bills` by the scenario's own names."""

    id: str
    trade: str
    does: str
    licence: str
    licence_seen_how: str
    insured: str
    seen_by: str
    """task on whose last day the licence was seen; empty where it was not"""
    tasks: tuple[str, ...] = ()
    places: tuple[str, ...] = ()
    lines: tuple[str, ...] = ()
    papers: tuple[str, ...] = ()
    waits: tuple[tuple[str, str], ...] = ()
    """(kind, words) still waited for; none of them stops anything here"""
    done_by: str = ""
    """task with which they were done here; empty while they are not"""


TRADES = (
    Trade(
        "SU12",
        "digger",
        "Opened the feeder trench, laid sand, backfilled and rolled it.",
        "",
        "",
        "slip seen",
        "TR02",
        tasks=("TR02", "TR05"),
        places=("TR",),
        papers=("PA30",),
        done_by="TR05",
    ),
    Trade(
        "SU13",
        "slab saw",
        "Cut and broke out the slab strip, wet.",
        "",
        "",
        "slip seen",
        "SB02",
        tasks=("SB02",),
        places=("SL",),
        papers=("PA31",),
        done_by="SB02",
    ),
    Trade(
        "SU14",
        "roofer",
        "Felted the west end of the roof anew.",
        "",
        "",
        "",
        "",
        tasks=("SH15",),
        papers=("PA32",),
        waits=(("warranty", "Warranty of the felt"),),
        done_by="SH15",
    ),
    Trade(
        "SU15",
        "electrician",
        "Looked over the sub-panel and the feeder.",
        "number on the slip",
        "slip, then the state's list",
        "slip seen",
        "WI26",
        tasks=("WI26",),
        places=("E",),
        lines=("FDR",),
        papers=("PA29",),
        done_by="WI26",
    ),
    Trade(
        "SU18",
        "heat pump fitter",
        "Connects the heat pump, draws the vacuum and starts it.",
        "",
        "",
        "",
        "",
        tasks=("AI08",),
        lines=("LS",),
        waits=(("report", "Start-up sheet with the vacuum reading"), ("warranty", "Warranty of the heat pump")),
    ),
)
