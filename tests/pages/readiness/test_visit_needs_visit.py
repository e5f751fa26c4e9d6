"""A visit that needs another one first: typed, and refused when each would wait for the other."""

from tests import builders
from tests.reading import words
from tests.story.bindery import BASE, roots, saved


def two(database, build) -> tuple[int, int]:
    with database.writing() as session:
        permit = builders.a_permit(session, build)
        rough = builders.an_inspection(session, permit, "Rough electrical", code="REL")
        frame = builders.an_inspection(session, permit, "Framing", code="FRM", position=2)
        builders.a_surface(session, build)
        return rough.row_id, frame.row_id


def test_a_visit_waits_for_another_one(client, database, build):
    rough, _ = two(database, build)
    saved(client.post(f"{BASE}/inspections/FRM/waits", data={"task": f"inspection:{rough}", "side": "before"}))
    assert "Rough electrical" in words(client.get(f"{BASE}/inspections/FRM/waits"))
    assert roots(client, "surface=E") == ["Ask for the visit: Rough electrical"]


def test_each_waiting_for_the_other_is_refused_with_both_names(client, database, build):
    rough, frame = two(database, build)
    saved(client.post(f"{BASE}/inspections/FRM/waits", data={"task": f"inspection:{rough}", "side": "before"}))
    answer = client.post(f"{BASE}/inspections/REL/waits", data={"task": f"inspection:{frame}", "side": "before"})
    assert answer.status_code == 409
    told = words(answer)
    assert "“Rough electrical” needs “Framing” needs “Rough electrical”" in told


def test_an_order_against_it_is_told(client, database, build):
    rough, _ = two(database, build)
    saved(client.post(f"{BASE}/inspections/FRM/waits", data={"task": f"inspection:{rough}", "side": "before"}))
    answer = client.post(f"{BASE}/inspections/FRM/move", data={"to": "earlier"})
    assert answer.status_code == 409
    assert "Framing stands before rough electrical, which it needs" in words(answer)
