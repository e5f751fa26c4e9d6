"""A list to begin with, in the model code's usual order: a proposal in which every word can be changed.

Clauses: International Residential Code, chapter 1, R109.1.1 to R109.1.6, as adopted and amended locally; what a stage
waits for is said in our own words. Lines marked "local rule" are asked for by some offices and not by others (the
energy code, a published sequence, a handout). Nothing here is "the right order": the local authority decides.
"""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass

from webapp.inspections.rules.trades import looks_at

LOCAL = "local rule"
LOOKED_AT = {
    "ground": ("slab", "trench"),
    "slab": ("slab",),
    "trench": ("trench",),
    "room": ("wall", "ceiling"),
    "frame": ("wall", "ceiling", "floor"),
    "outside": ("outside",),
    "": (),
}
"""kinds of surface a line looks at; none means the whole building"""


@dataclass(frozen=True, slots=True)
class Start:
    """One line offered. `clause`: the model code's, or "local rule"; `trade`: by which its permit is guessed and whose
    self-check list it uses; `on`: a key of LOOKED_AT; `usual`: ticked where its trade or its surfaces are known.
    """

    key: str
    name: str
    clause: str
    when: str
    before: str
    trade: str = ""
    on: str = ""
    ready: str = ""
    usual: bool = True
    holds: bool = True

    @property
    def source(self) -> str:
        return LOCAL if self.clause == LOCAL else f"IRC {self.clause}, the model code’s usual order"


STARTING = (
    Start(
        "foundation",
        "Footing and foundation",
        "R109.1.1",
        "Dug, forms up, bars in place; before any concrete.",
        "concrete",
        "footing",
        "slab",
        "forms and bars in view, no loose soil or water",
    ),
    Start(
        "under_slab",
        "Under-slab plumbing",
        LOCAL,
        "Drain laid and under test; before the pour.",
        "the pour",
        "plumbing",
        "slab",
        "water on, level marked",
    ),
    Start(
        "trench",
        "Trench before backfill",
        LOCAL,
        "Conduit or pipe laid, depth open to a tape; before backfill.",
        "backfill",
        "electrical",
        "trench",
        "depth open to see, warning tape at hand",
    ),
    Start(
        "electrical",
        "Rough electrical",
        "R109.1.2",
        "All runs in and open; before covering and before the framing visit.",
        "insulation",
        "electrical",
        "room",
        "grounds made up, staples and plates in view",
    ),
    Start(
        "plumbing",
        "Rough plumbing",
        "R109.1.2",
        "Pipes in, under test; before covering and before fixtures are set.",
        "insulation",
        "plumbing",
        "room",
        "test on, gauge readable",
    ),
    Start(
        "mechanical",
        "Rough mechanical",
        "R109.1.2",
        "Ducts and lines in; before covering and before appliances are set.",
        "insulation",
        "mechanical",
        "room",
        "maker’s sheets on site",
    ),
    Start(
        "gas",
        "Gas piping, test on",
        "R109.1.2",
        "Piping in, under test; before covering.",
        "insulation",
        "gas",
        "room",
        "test on, gauge readable",
        usual=False,
    ),
    Start(
        "flood",
        "Floodplain elevation",
        "R109.1.3",
        "Only where the ground is mapped as flood hazard: papers when the lowest floor is placed.",
        "the frame",
        usual=False,
    ),
    Start(
        "framing",
        "Framing",
        "R109.1.4",
        "Roof, framing, fire stops and bracing in place, and the rough visits passed.",
        "insulation",
        "framing",
        "frame",
        "ladder, stamped plans, truss papers",
    ),
    Start(
        "nailing",
        "Sheathing or roof nailing",
        LOCAL,
        "Nails in view; before wrap, siding or roofing.",
        "siding",
        "framing",
        "outside",
        "nailing in view",
        usual=False,
    ),
    Start(
        "insulation",
        "Insulation and vapour retarder",
        LOCAL,
        "All of it in, print readable; before board.",
        "board",
        "insulation",
        "room",
        "product card up",
    ),
    Start(
        "fire_rated",
        "Fire-rated board",
        "R109.1.5.1",
        "Board up, joints and screws open; before tape. Only where a rated wall is on the plans.",
        "tape",
        "board",
        "room",
        usual=False,
        holds=False,
    ),
    Start(
        "board",
        "Board nailing",
        LOCAL,
        "Board hung and fastened; before any tape.",
        "tape",
        "board",
        "room",
        "no tape on anything",
        holds=False,
    ),
    Start(
        "final_electrical",
        "Final electrical",
        LOCAL,
        "Devices in, panel labelled.",
        "the final",
        "electrical",
        holds=False,
    ),
    Start("final_plumbing", "Final plumbing", LOCAL, "Fixtures set and running.", "the final", "plumbing", holds=False),
    Start("final_mechanical", "Final mechanical", LOCAL, "Appliances set.", "the final", "mechanical", holds=False),
    Start(
        "final",
        "Final",
        "R109.1.6",
        "All the permitted work done; before the place is used.",
        "use",
        ready="all other finals on the card",
        holds=False,
    ),
)


@dataclass(frozen=True, slots=True)
class Known:
    """What is on record by now: kinds of surface, services (electric, drain, gas), kinds of work, names of permits."""

    surfaces: Collection[str] = ()
    services: Collection[str] = ()
    work: Collection[str] = ()
    permits: Collection[str] = ()
    listed: Collection[str] = ()
    """names on the list already"""

    @property
    def nothing(self) -> bool:
        return not (self.surfaces or self.services or self.work)


_TRADE: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "electrical": (("electric",), ("wiring",)),
    "plumbing": (("water", "drain", "vent"), ("plumbing",)),
    "mechanical": (("air",), ("ducting",)),
    "gas": (("gas",), ("gas",)),
    "footing": ((), ("concrete", "digging")),
    "insulation": ((), ("insulation",)),
    "board": ((), ("board",)),
    "framing": ((), ("framing", "sheathing")),
}
"""trade -> services and kinds of work that show it is there; common practice, no source"""


CHECKED_AS = {"gas": "mechanical"}
"""trades whose points to look over stand on another one's list"""


def _trade_is_here(trade: str, known: Known) -> bool:
    services, work = _TRADE[trade]
    by_permit = trade != "gas" and any(looks_at(permit, service) for permit in known.permits for service in services)
    return by_permit or bool(set(services) & set(known.services)) or bool(set(work) & set(known.work))


def likely(line: Start, known: Known) -> bool:
    """Whether the line is ticked at first: usual, and nothing on record speaks against it."""
    if any(line.name.casefold() == name.casefold() for name in known.listed):
        return False
    kinds = LOOKED_AT[line.on]
    surfaces_there = not kinds or not known.surfaces or bool(set(kinds) & set(known.surfaces))
    if not surfaces_there:
        return False
    if not line.usual:
        return line.trade == "gas" and _trade_is_here("gas", known)
    if not line.trade or known.nothing:
        return True
    if line.trade in {"insulation", "board", "framing"}:
        return True
    return _trade_is_here(line.trade, known)


def guessed_permit(line: Start, permits: Iterable[tuple[int, str]]) -> int | None:
    """The permit whose name speaks of the line's trade, where just one does; else, for a line of no such trade, the one
    that speaks of building. A guess by its words; the builder chooses.
    """
    services = _TRADE[line.trade][0] if line.trade else ()
    fitting = [number for number, name in permits if any(looks_at(name, service) for service in services)]
    if not services:
        fitting = [number for number, name in permits if "build" in name.casefold()]
    return fitting[0] if len(fitting) == 1 else None


def short_name(name: str, taken: Collection[str]) -> str:
    """Up to twelve capitals and digits, made from the name and like no other: ROUGHELECTRI, ROUGHELECT2."""
    plain = "".join(char for char in name.upper() if char.isascii() and char.isalnum())[:12] or "VISIT"
    return next(code for code in _numbered(plain) if code not in taken)


def _numbered(plain: str) -> Iterator[str]:
    yield plain
    for number in range(2, 1000):
        yield f"{plain[: 12 - len(str(number))]}{number}"
