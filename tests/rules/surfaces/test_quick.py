"""What is offered to be placed with one press, and what it brings along."""

from dataclasses import dataclass

from webapp.surfaces.rules.kinds import SERVICES
from webapp.surfaces.rules.quick import QUICK, SHOWN, last_line, made_label, offered
from webapp.surfaces.rules.symbols import has_symbol


@dataclass(frozen=True)
class Thing:
    id: int
    kind: str
    line_id: int | None = None


@dataclass(frozen=True)
class Circuit:
    id: int
    service: str = "electric"


def test_what_was_used_most_on_the_surface_is_offered_first():
    kinds = [one.kind for one in offered(["stub-out", "switch", "stub-out", "a kind of my own"])]
    assert kinds[:4] == ["stub-out", "switch", "receptacle", "light box"]
    assert len(kinds) == SHOWN


def test_on_an_empty_wall_the_usual_order_stands():
    assert [one.kind for one in offered([])][:4] == ["receptacle", "switch", "light box", "data box"]


def test_every_kind_offered_is_drawn_with_a_sign_of_its_own():
    assert all(has_symbol(one.kind) or one.kind == "blocking" for one in QUICK)
    assert all(set(one.services) <= set(SERVICES) for one in QUICK)
    assert len({one.kind for one in QUICK}) == len(QUICK)


def test_the_last_circuit_used_is_that_of_the_thing_written_down_last():
    items = [Thing(1, "receptacle", 5), Thing(9, "switch", 6), Thing(4, "stub-out", 7), Thing(12, "blocking")]
    lines = [Circuit(5), Circuit(6), Circuit(7, "water")]
    assert last_line(items, lines) == Circuit(6)
    assert last_line(items, lines, ("water", "drain")) == Circuit(7, "water"), "a pipe does not hang on a circuit"
    assert last_line(items, lines, ("framing",)) is None
    assert last_line(items, lines[:1]) == Circuit(5), "a line out of use is not offered"


def test_a_thing_without_a_name_is_named_by_its_kind_and_counted():
    assert made_label("receptacle", ["switch", "receptacle", "receptacle"]) == "Receptacle 3"
    assert made_label("stub-out", []) == "Stub-out 1"
