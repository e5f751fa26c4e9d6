"""The usual caution for each kind of work that can hurt someone, with where it comes from.

Reminders in our own words, never permission: no sentence says when something would be harmless. The federal rules cited
bind employers, not an owner who works alone; their figures are shown as good practice. A clause of 29 or 40 CFR has no
edition (it is cited as amended); of a code, the edition is named where it was read.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from webapp.values.own_words import own

CLOSING = "Usual cautions, not a rule book. Your local authority and licensed people decide."


@dataclass(frozen=True, slots=True)
class Caution:
    """`source` names clause and edition, and says which part is from memory or common practice."""

    heading: str
    sentences: tuple[str, ...]
    source: str


ELECTRICITY = Caution(
    "Electricity: off, locked, proved dead",
    (
        "Switch it off, lock it and tag it. Whatever is not locked out counts as live.",
        "Prove it dead where you work, with a tester tried on a known live source before and again after.",
        "The service conductors ahead of the main stay live with the main off.",
        "They are for the utility and a licensed electrician.",
    ),
    "29 CFR 1910.333(a)(1) and (b); NFPA 70E, 2021 edition, 120.5(7); service conductors: common practice, from memory",
)
LADDERS = Caution(
    "Ladders and falls",
    (
        "Stand the foot out a quarter of the working length, 4 to 1: a ladder that rests at 10 ft stands 2½ ft out.",
        "Let the rails reach 3 ft above a landing you step onto, and tie the top.",
        "From 6 ft up, building sites must have guard rails, a net or a harness. Tell somebody before you climb alone.",
    ),
    "29 CFR 1926.1053(b)(1) and (b)(5)(i); 29 CFR 1926.501(b)(1) and (b)(13); telling somebody: common practice",
)
STRUCTURE = Caution(
    "Structure: stop before you cut",
    (
        "Joists, trusses, headers and bearing walls hold something up.",
        f"Before one is cut, notched or moved, ask an engineer and have the {own('permit')}.",
        "Shore first. Engineered members (trusses, I-joists, laminated beams) follow their maker's paper.",
    ),
    "IRC R301.1.3, R802.7.2 and R802.10.4, edition not noted, partly from memory",
)
NAILERS = Caution(
    "Nailers",
    (
        "Use the full sequential trigger: contact triggers are in about twice as many injuries.",
        "Finger off the trigger when you move. Eyes covered, and nobody's hand behind the work.",
        "Take the air off before you clear a jam.",
    ),
    "OSHA and NIOSH, Nail Gun Safety, publication 2011-202; hand behind the work and air off: from memory",
)
SILICA = Caution(
    "Silica dust",
    (
        "Sawing, grinding or breaking concrete, masonry and some compounds frees dust that scars lungs.",
        "The limit is 50 µg/m³ over eight hours, and action starts at 25.",
        "Cut wet, or with the shroud and vacuum that Table 1 lists for the tool.",
    ),
    "29 CFR 1926.1153 and its Table 1",
)
LEAD = Caution(
    "Lead paint",
    (
        "Paint from before 1978 may hold lead. Have it tested before you sand, scrape or cut it.",
        "Paid work on more than 6 sq ft in a room or 20 sq ft outside, or on any window, falls under the lead rules.",
        "At your own house follow the same practice.",
    ),
    "40 CFR 745, with 745.83; own house: EPA, Renovate Right",
)
ASBESTOS = Caution(
    "Asbestos",
    (
        "Old vermiculite, textured ceilings, floor tile and pipe wrap may hold asbestos.",
        "Do not disturb them until a laboratory has answered.",
        "Some places want a survey before anything is torn out.",
    ),
    "EPA guidance on asbestos at home; state rules under 40 CFR 61 subpart M (number from memory)",
)
DIGGING = Caution(
    "Digging: have the lines marked first",
    (
        "Call the one-call locate service before you dig (811 in the United States).",
        "Wait the days your state says, often two or three.",
        "Mark in white where you will dig.",
        "Dig by hand near a mark: 24 in each side in many places, 18 in some.",
        "Private lines, such as water, sewer or a feeder on your own land, are not marked. Find those yourself.",
    ),
    "State one-call laws, which differ; 18 in: from memory",
)
TRENCH = Caution(
    "Trench walls fall in",
    (
        "From 5 ft deep a trench is sloped, shored or shielded before anyone stands in it.",
        "So is a shallower one where the ground could give. The soil decides.",
    ),
    "29 CFR 1926.652(a)(1)",
)
LIFTING = Caution(
    f"Lifting {own('board')}",
    (
        "A 4 by 8 sheet weighs 51 to 58 lb at ½ in, 70 lb and more at ⅝ in: two people, or a lift.",
        "Store it flat and low, so that a stack cannot fall on anyone.",
    ),
    "NIOSH advice on handling drywall",
)
GAS = Caution(
    "Gas",
    (
        "Where the law says so, only a licensed person works on gas pipe. It is tested before anything covers it.",
        "If you smell gas: leave, touch no switch, call from outside.",
    ),
    "NFPA 54, edition not noted, from memory; smell of gas: household advice of gas utilities",
)
FOAM = Caution(
    "Foam, solvents and dust",
    (
        "Read the safety data sheet first: which respirator, and how long until anyone may come back in.",
        "Foam does not stay bare: it wants a thermal barrier over it.",
    ),
    "The maker's safety data sheet; IRC R316, edition not noted, partly from memory",
)
EYES = Caution(
    "Eyes and ears",
    (
        "Rated eye protection for cutting, nailing, overhead work, foam and insulation.",
        "Cover your ears from 85 dBA. The limit on a site is 90 dBA over eight hours.",
    ),
    "29 CFR 1926.102 and ANSI Z87.1, partly from memory; 29 CFR 1926.52, Table D-2; 85 dBA: NIOSH, from memory",
)
ALONE = "This task is down for one pair of hands. Overhead, a sheet wants a second pair or a lift."

BY_KIND: Mapping[str, tuple[Caution, ...]] = {
    "board": (LIFTING, LADDERS, EYES),
    "concrete": (SILICA, EYES),
    "demolition": (STRUCTURE, ELECTRICITY, ASBESTOS, LEAD, SILICA, EYES),
    "digging": (DIGGING, TRENCH),
    "ducting": (LADDERS, STRUCTURE, EYES),
    "finishing": (FOAM, LADDERS),
    "fitting": (LADDERS, EYES),
    "framing": (STRUCTURE, NAILERS, LADDERS),
    "gas": (GAS,),
    "handling": (LIFTING,),
    "insulation": (EYES, FOAM, LADDERS),
    "joinery": (EYES,),
    "low voltage": (LADDERS,),
    "plumbing": (STRUCTURE, FOAM),
    "roofing": (LADDERS, NAILERS, EYES),
    "sheathing": (NAILERS, LADDERS, EYES),
    "wiring": (ELECTRICITY, LADDERS),
}
AT_THE_DESK = frozenset({"editing", "ordering", "paperwork"})
_CUES: tuple[tuple[re.Pattern[str], tuple[Caution, ...]], ...] = tuple(
    (re.compile(rf"\b(?:{words})", re.IGNORECASE), found)
    for words, found in (
        (r"panel|breaker|feeder|energi[sz]e|switch on|service conductor", (ELECTRICITY,)),
        (r"gas\b|propane", (GAS,)),
        (r"trench", (TRENCH,)),
        (r"dig\b|digging|ground rod|auger|post hole", (DIGGING,)),
        (r"header|joist|truss|bearing|shore\b|lintel", (STRUCTURE,)),
        (r"ceiling|roof|gable|ladder|scaffold|overhead", (LADDERS,)),
        (r"(?:saw|grind|break|drill|cut)\b.*\b(?:slab|concrete|masonry|lip|brick)", (SILICA,)),
        (r"old (?:paint|window|door)|scrape", (LEAD,)),
        (r"vermiculite|popcorn|old (?:tile|insulation|ceiling)|pipe wrap", (ASBESTOS,)),
        (r"spray foam|foam\b|solvent", (FOAM,)),
    )
)


def cautions_for(kind: str, title: str = "", hands: int = 1) -> tuple[Caution, ...]:
    """The cautions of a kind of work, then those its title calls for; nothing for work at the desk."""
    if kind in AT_THE_DESK:
        return ()
    called_for = [caution for cue, found in _CUES if cue.search(title) for caution in found]
    cautions = dict.fromkeys((*BY_KIND.get(kind, ()), *called_for))
    return tuple(_lifted_alone(caution) if caution is LIFTING and hands < 2 else caution for caution in cautions)


def _lifted_alone(caution: Caution) -> Caution:
    return Caution(caution.heading, (*caution.sentences, ALONE), caution.source)
