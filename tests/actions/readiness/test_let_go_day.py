"""The day of the authority's word counts as the day a correction was settled."""

from datetime import date

from webapp.readiness.rules import keys
from webapp.surfaces import actions


def test_a_wait_after_a_correction_let_go_is_counted_from_the_day_of_the_word(session, wall, site):
    key, on = keys.correction(wall.correction.row_id), date(2026, 5, 14)
    wall.correction.done_on = None
    actions.let_go(session, wall.surface.row_id, key, "Seal", "authority", "the inspector", "seen on the day", on)
    assert site().network.node(key).settled_on == on
