"""The order in which shots are owed."""

from dataclasses import dataclass

from webapp.footage.rules.order import owed_by_step


@dataclass(frozen=True)
class AShot:
    name: str
    task_id: int | None = 1
    task: str | None = "Hang the board"
    task_state: str | None = "not started"
    strength: str = "wish"
    once: bool = False
    state: str = "owed"


def names(steps) -> list[list[str]]:
    return [[shot.name for shot in step.shots] for step in steps]


def test_a_must_comes_before_a_wish_and_once_only_before_any_time():
    shots = [
        AShot("wish"),
        AShot("once", once=True),
        AShot("must", strength="must"),
        AShot("both", strength="must", once=True),
    ]
    assert names(owed_by_step(shots)) == [["both", "must", "once", "wish"]]


def test_filmed_and_skipped_shots_are_not_owed():
    assert owed_by_step([AShot("filmed", state="filmed"), AShot("skipped", state="skipped")]) == ()


def test_steps_still_to_come_go_before_done_ones_and_no_step_comes_last():
    shots = [
        AShot("whenever", task_id=None, task=None, task_state=None),
        AShot("too late", task_id=2, task_state="done"),
        AShot("soon", task_id=3),
    ]
    steps = owed_by_step(shots)
    assert names(steps) == [["soon"], ["too late"], ["whenever"]]
    assert [step.missed for step in steps] == [False, True, False]


def test_shots_of_one_step_stand_together_in_the_order_of_the_plan():
    shots = [AShot("a", task_id=5), AShot("b", task_id=4), AShot("c", task_id=5)]
    assert names(owed_by_step(shots)) == [["a", "c"], ["b"]]
