"""The facts planted in the scenario, with the figures restated: later pages are judged by the same ones."""

from collections import Counter, defaultdict
from datetime import date
from fractions import Fraction

import networkx as nx
import pytest

from webapp.demo.files.packaged import read_packaged
from webapp.demo.rules.content import Content, read_content

INCH = 25_400_000
HANDS = ("self", "unpaid helper", "paid helper", "hired")


@pytest.fixture(scope="module")
def content() -> Content:
    return read_content(read_packaged(), today=date(2031, 3, 8), say_day=str)


def one(rows, row_id):
    return next(row for row in rows if row.id == row_id)


def test_needs_make_a_graph_without_loops_and_name_only_known_things(content):
    # networkx, a general-purpose graph library, is the check from outside.
    graph = nx.DiGraph((need.needs, need.what) for need in content.needs)
    assert nx.is_directed_acyclic_graph(graph)
    assert len(content.needs) == 378
    tasks, shots = ({row.id for row in rows} for rows in (content.tasks, content.footage))
    visits = {f"{kind.id}@{surface}" for kind in content.inspections for surface in kind.surfaces}
    known = {"task": tasks, "inspection": visits, "shot": shots}
    known["correction"] = {row.id for row in content.corrections}
    known["question"] = {row.id for row in content.questions}
    known["permit"] = {row.id for row in content.permits}
    known["pictures"] = {slot.picture_set for slot in content.picture_slots}
    for need in content.needs:
        assert need.what in known[need.what_kind], need.id
        assert need.needs_kind == "goods" or need.needs in known[need.needs_kind], need.id


def test_work_entries_add_up_to_days_and_to_tasks(content):
    by_task, by_day, by_hand = Counter(), defaultdict(Counter), Counter()
    for entry in content.work_entries:
        by_task[entry.task] += entry.minutes
        by_day[entry.workday][entry.who] += entry.minutes
        by_hand[entry.who] += entry.minutes
    assert {task.id: task.actual_min for task in content.tasks if task.actual_min} == dict(by_task)
    for day in content.workdays:
        minutes = (day.self_min, day.unpaid_helper_min, day.paid_helper_min, day.hired_min)
        assert tuple(by_day[day.id][who] for who in HANDS) == minutes, day.id
    hours = [Fraction(by_hand[who], 60) for who in HANDS]
    assert hours == [Fraction("385.5"), Fraction("41.5"), Fraction("4.5"), 22]
    assert sum(hours) == Fraction("453.5")


def test_money_adds_up_to_the_cent(content):
    per_receipt = defaultdict(lambda: [0, 0, 0, 0])
    for line in content.spend:
        assert line.net_cents + line.tax_cents == line.total_cents, line.id
        sums = per_receipt[line.receipt]
        for place, cents in enumerate((1, line.net_cents, line.tax_cents, line.total_cents)):
            sums[place] += cents
    assert sum(line.total_cents for line in content.spend) == 1_526_783
    assert sum(receipt.total_cents for receipt in content.receipts) == 1_526_783
    assert sum(line.total_cents for line in content.spend if line.project == "house") == 2_432
    for row in content.receipts:
        assert per_receipt[row.id] == [row.lines, row.net_cents, row.tax_cents, row.total_cents], row.id


def test_the_light_on_three_phases_is_split_without_losing_a_cent(content):
    shares = [line for line in content.spend if line.split_group == "RC35-A"]
    assert [line.net_cents for line in shares] == [2667, 2666, 2666]
    assert sum(line.net_cents for line in shares) == 7999
    # 7.25 per cent of 79.99 is 5.799275, half up 5.80: the whole is taxed, then shared.
    assert sum(line.tax_cents for line in shares) == 580


def test_the_gift_costs_nothing_and_the_double_charge_came_back(content):
    gift = one(content.spend, "M148")
    assert (gift.total_cents, gift.value_cents) == (0, 24_000)
    assert sum(line.total_cents for line in content.spend if line.kind == "double charge") == 0
    owed = [line for line in content.spend if line.refund_state == "owed to me"]
    assert [(line.id, line.total_cents) for line in owed] == [("M156", -1_392)]


def test_permit_clocks_run_out_on_the_days_given(content):
    offsets = {}
    for permit in content.permits:
        assert (permit.lapse_day - permit.last_counting_day).days == permit.lapse_days, permit.id
        offsets[permit.id] = (permit.lapse_day - content.saturday).days
    assert offsets == {"BLD": 36, "ELE": 334, "PLB": 123}


def test_a_mistyped_result_and_a_withdrawn_one_both_stay(content):
    assert (one(content.results, "X04").state, one(content.results, "X04").changed_by) == (
        "replaced",
        "my mistake",
    )
    assert (one(content.results, "X18").state, one(content.results, "X18").changed_by) == (
        "withdrawn",
        "theirs",
    )
    framing = {r.surface: r.result for r in content.results if r.visit == "V15"}
    assert framing == {"W": "failed", "C": "failed"}
    assert one(content.results, "X25").result == "part passed"


def test_east_is_stopped_by_four_things_and_nothing_else(content):
    needs = [need for need in content.needs if need.what == "BO09" and need.strength == "hard"]
    corrections = [c.id for c in content.corrections if c.surface == "E" and c.state != "cleared"]
    sets = {need.needs for need in needs if need.needs_kind == "pictures"}
    owed = [s.id for s in content.picture_slots if s.picture_set in sets and s.strength == "must" and s.state == "owed"]
    wanted = [need.needs for need in needs if need.needs_kind == "shot"]
    shots = [shot.id for shot in content.footage if shot.id in wanted and shot.state == "owed"]
    assert (corrections, owed, shots) == (["K01"], ["E6", "E7"], ["F20"])


def test_the_box_planted_too_small_is_too_small(content):
    # 2.25 cu in for each 12 gauge wire; all grounds one, a device two (electrical code 2020, 314.16(B), from
    # memory): six conductors, one for the grounds, two for the receptacle.
    box = one(content.items, "W02")
    assert box.cables == ("12-2*3",)
    assert box.box_in3 == 18 < (6 + 1 + 2) * Fraction("2.25") == Fraction("20.25")


def test_the_staple_planted_too_far_is_too_far(content):
    # 8 in from a single box without clamp (electrical code 2020, 314.17(C), from memory).
    far = [
        item.id
        for item in content.items
        if item.first_staple_nm is not None and item.first_staple_nm > (12 if item.clamps else 8) * INCH
    ]
    assert far == ["W03"]


def test_the_one_junction_box_nobody_could_reach_is_the_planted_one(content):
    assert [i.id for i in content.items if i.kind == "junction box" and i.access == "none"] == ["CE09"]


def test_the_gap_round_the_south_west_corner_is_too_wide(content):
    south, west = one(content.surfaces, "S"), one(content.items, "W01")
    gap = south.length_nm - one(content.items, "S04").x_nm + west.x_nm
    # No point of the floor line over 6 ft from a receptacle, so 12 ft between two (electrical code 2020,
    # 210.52(A)(1), from memory).
    assert gap == Fraction("148.5") * INCH > 144 * INCH


def test_pictures_fill_slots_of_their_own_surface(content):
    slots = {slot.id: slot for slot in content.picture_slots}
    pictures = {picture.id: picture for picture in content.pictures}
    assert len(pictures) == 123
    for slot in slots.values():
        assert (slot.state == "filled") == bool(slot.filled_by), slot.id
        if slot.filled_by:
            assert pictures[slot.filled_by].slot == slot.id
            assert pictures[slot.filled_by].surface == slot.surface
    twice = {p.id: p.same_as for p in content.pictures if p.same_as}
    assert twice == {"P060": "P054"}


def test_runs_end_where_the_next_surface_begins_and_stay_inside_their_own(content):
    surfaces = {surface.id: surface for surface in content.surfaces}
    for run in content.runs:
        surface = surfaces[run.surface]
        for x, y in run.points:
            assert 0 <= x <= surface.length_nm, run.id
            assert 0 <= y <= surface.height_nm, run.id
