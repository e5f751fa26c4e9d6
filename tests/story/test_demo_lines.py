"""The circuits and lines of the invented build, each followed from end to end."""

import networkx as nx

from tests.reading import soup, words
from webapp.core.forms import Reader, Submitted
from webapp.plan.store import get_build
from webapp.surfaces import store
from webapp.surfaces.forms.ends import Around, read_ends
from webapp.surfaces.pages.states import run_state

BASE = "/builds/bindery/services"
UNFINISHED = {"FDR", "GND", "HW", "DR", "VT", "CD", "LS", "NET", "TW", "WT"}
"""lines of which a part is not drawn, or an end is not on record"""


def known(database):
    with database.reading() as session:
        build_id = get_build(session, "bindery").id
        return (
            store.list_lines(session, build_id),
            store.list_items(session, build_id),
            store.list_runs(session, build_id),
            {one.id: one for one in store.list_surfaces(session, build_id)},
        )


def test_every_line_is_followed_through_as_many_parts_as_a_graph_library_counts(demo):
    lines, items, runs, _ = known(demo.database)
    assert len(lines) == 27
    unfinished = set()
    for line in lines:
        page = demo.client.get(f"{BASE}/{line.code}")
        graph = nx.Graph()
        for run in (run for run in runs if run.line_id == line.id):
            first = run.from_item_id or ("from", run.id)
            graph.add_edge(("run", run.id), ("run", run.continues_id or run.id))
            graph.add_edges_from(((first, ("run", run.id)), (("run", run.id), run.to_item_id or ("to", run.id))))
        ways = soup(page).select(".way")
        assert len(ways) == nx.number_connected_components(graph), line.code
        boxes = {item.label for item in items if item.line_id == line.id and item.is_box}
        assert boxes <= {one.get_text().removeprefix("Again from ") for one in soup(page).select(".way b")}, line.code
        if soup(page).select("#notes"):
            unfinished.add(line.code)
    assert unfinished == UNFINISHED


def test_every_run_could_be_typed_as_it_is_on_record(demo):
    lines, items, runs, surfaces = known(demo.database)
    by_id = {line.id: line for line in lines}
    assert len(runs) == 98
    for run in runs:
        reader = Reader(Submitted([(name, values[-1]) for name, values in run_state(run, "in").typed.items()]))
        around = Around(surfaces[run.surface_id], items, runs, run)
        read_ends(reader, around, by_id[run.line_id or 0], run.points, "in")
        assert not reader.errors, (run.id, reader.errors)


def test_the_panel_has_fifteen_of_sixteen_spaces_taken_and_both_two_pole_breakers_reach_down(demo):
    page = demo.client.get(f"{BASE}/panel")
    spaces = [one.get_text() for one in soup(page).select(".spaces tbody th")]
    assert spaces == ["1", "2", "3", "4", "5", "6", "7-9", "8", "10", "11", "12-14", "13", "15", "16"]
    assert [one.get_text() for one in soup(page).select(".spaces th[rowspan='2']")] == ["7-9", "12-14"]
    assert "16 spaces" in words(page) and words(page).count("empty") == 1
