"""Gathers the record into the one graph of needs that every page asks."""

from webapp.readiness.store.evidence import Proof, last_seen, let_go, proofs
from webapp.readiness.store.site import Site, look_over, nearest_first, site

__all__ = ["Proof", "Site", "last_seen", "let_go", "look_over", "nearest_first", "proofs", "site"]
