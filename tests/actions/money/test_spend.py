"""Spend is written down, added up in whole cents and put right without losing what stood there."""

from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests import builders
from webapp.money import store
from webapp.money.actions import SpendForm, amend_spend, record_spend
from webapp.values.errors import NotFound, RuleBroken

DAY = date(2026, 5, 9)
BOARD = SpendForm(DAY, "Board, 30 sheets", 59_616, tax_cents=4_416, supplier="timber yard")


def test_a_return_leaves_the_month_of_the_purchase_as_it_was(session):
    """Scenario of a return: 30 at 18.40 with 8 % tax paid in December, 102.67 back in January, 493.49 in all."""
    build = builders.a_build(session).row_id
    record_spend(session, build, replace(BOARD, day=date(2026, 12, 19)))
    record_spend(session, build, SpendForm(date(2027, 1, 8), "6 sheets back", -10_267))
    by_month = {line.day.strftime("%Y-%m"): line.total_cents for line in store.list_spend(session, build)}
    assert by_month == {"2026-12": 59_616, "2027-01": -10_267}
    assert sum(each.cents for each in store.sums_by_kind(session, build)) == 49_349


def test_every_sum_is_the_sum_of_its_lines(session):
    build = builders.a_build(session)
    phases = [builders.a_phase(session, build, f"Phase {each}", each) for each in (2, 1)]
    amounts = (10, 19_999, -501, 3, 77_777)
    for number, cents in enumerate(amounts):
        phase = phases[number % 2].row_id if number < 4 else None
        record_spend(session, build.row_id, SpendForm(DAY, "x", cents, ("hired", "fees")[number % 2], phase_id=phase))
    by_phase, by_kind = store.sums_by_phase(session, build.row_id), store.sums_by_kind(session, build.row_id)
    assert [each.label for each in by_phase] == ["Phase 1", "Phase 2", "No phase"]
    for found in by_phase:
        lines = store.list_spend(session, build.row_id, phase_id=found.key, loose=found.key is None)
        assert (sum(line.total_cents for line in lines), len(lines)) == (found.cents, found.lines)
    for found in by_kind:
        lines = store.list_spend(session, build.row_id, kind=found.key)
        assert (sum(line.total_cents for line in lines), len(lines)) == (found.cents, found.lines)
    assert sum(each.cents for each in by_phase) == sum(each.cents for each in by_kind) == sum(amounts)


def test_what_stood_there_before_is_kept_and_readable(session):
    build = builders.a_build(session)
    phase = builders.a_phase(session, build, "Board, tape, prime").row_id
    line = record_spend(session, build.row_id, BOARD)
    changed = amend_spend(
        session, build.row_id, line.row_id, replace(BOARD, total_cents=59_661, phase_id=phase), "digits"
    )
    assert changed == 2
    kept = [(each.field, each.was, each.became) for each in store.list_spend_changes(session, line.row_id)]
    assert kept == [("Paid", "596.16", "596.61"), ("Phase", "not said", "Board, tape, prime")]
    assert amend_spend(session, build.row_id, line.row_id, replace(BOARD, total_cents=59_661, phase_id=phase), "") == 0


def test_a_line_that_cannot_be_true_is_refused_and_nothing_is_kept(session):
    build = builders.a_build(session).row_id
    with pytest.raises(RuleBroken, match="worth"):
        record_spend(session, build, SpendForm(DAY, "Fan", 0, "gift"))
    assert store.list_spend(session, build) == ()


def test_a_line_of_another_build_is_not_found(session):
    line = record_spend(session, builders.a_build(session).row_id, BOARD)
    other = builders.a_build(session, "Boathouse").row_id
    with pytest.raises(NotFound):
        amend_spend(session, other, line.row_id, BOARD, "")


@given(st.lists(st.integers(-(10**9), 10**9).filter(bool), min_size=1, max_size=30))
def test_sums_are_exact_for_any_cents(database_of_sums, amounts):
    """Outside check: the same sum in exact fractions of the Python standard library."""
    with database_of_sums.writing() as session:
        build = builders.a_build(session, slug=f"b{builders.secrets.token_hex(8)}").row_id
        for cents in amounts:
            record_spend(session, build, SpendForm(DAY, "x", cents))
        exact = sum((Fraction(cents, 100) for cents in amounts), Fraction(0))
        assert sum(Fraction(each.cents, 100) for each in store.sums_by_kind(session, build)) == exact
