"""A surface that was covered before it was cleared: whose word it waits for, and what counts as one."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from webapp.inspections.rules.facts import ResultFacts
from webapp.readiness.rules.mistaken import needs_a_word, spoken_since, work_title

S, N = 3, 1
WRITTEN = datetime(2026, 5, 11, 8, tzinfo=UTC)


def a_result(surface: int | None = S, kind: str = "passed", hours: int = 1, state: str = "current") -> ResultFacts:
    made = {name: "" for name in ResultFacts.__dataclass_fields__ if name != "reopened"}
    made |= {"id": 1, "surface_id": surface, "kind": kind, "state": state, "day": date(2026, 5, 9)}
    return ResultFacts(**made | {"recorded_at": WRITTEN + timedelta(hours=hours)})


@pytest.mark.parametrize(
    ("keys", "word"),
    [
        (["inspection:1@3"], True),
        (["slot:4", "correction:2"], True),
        (["asked:2"], True),
        (["slot:4", "shot:1", "count:3"], False),
        (["question:1", "task:9"], False),
        ([], False),
    ],
)
def test_the_authority_has_to_speak_only_where_something_of_theirs_was_owed(keys, word):
    assert needs_a_word(keys) is word


@pytest.mark.parametrize(
    ("result", "counts"),
    [
        (a_result(), True),
        (a_result(kind="passed, small items on my honour"), True),
        (a_result(surface=N), False),
        (a_result(surface=None), False),
        (a_result(kind="failed"), False),
        (a_result(kind="not looked at"), False),
        (a_result(state="withdrawn"), False),
        (a_result(hours=-1), False),
    ],
)
def test_only_a_pass_that_names_the_surface_and_was_written_down_since_counts(result, counts):
    assert (spoken_since(WRITTEN, S, [result]) is not None) is counts


def test_a_pass_of_an_earlier_visit_found_on_the_card_later_counts():
    late = replace(a_result(), day=date(2026, 5, 1))
    assert spoken_since(WRITTEN, S, [late]) is late


def test_the_work_says_what_is_to_be_done():
    assert work_title("S", word=True) == "Ask the inspector about S, or open it up"
    assert work_title("S", word=False) == "Open S up, or let go what was missed"
