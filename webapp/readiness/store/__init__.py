"""Gathers the record into the one graph of needs that every page asks."""

from webapp.readiness.store.evidence import Proof, last_seen, let_go, proofs
from webapp.readiness.store.held import first_held_phase, left_of_phase, roots_from_outside
from webapp.readiness.store.on_hand import on_hand
from webapp.readiness.store.site import Site, look_over, nearest_first, site

__all__ = [
    "Proof",
    "Site",
    "first_held_phase",
    "last_seen",
    "left_of_phase",
    "let_go",
    "look_over",
    "nearest_first",
    "on_hand",
    "proofs",
    "roots_from_outside",
    "site",
]
