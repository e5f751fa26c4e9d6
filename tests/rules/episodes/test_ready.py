"""May it go out? Every missing thing is named at once."""

from dataclasses import replace
from datetime import date

import pytest

from webapp.episodes.rules.ready import GoingOut, PictureState, may_go_out

FINE = GoingOut(
    title="South in two halves",
    text="It held.",
    from_day=date(2026, 5, 1),
    to_day=date(2026, 5, 16),
    today=date(2026, 5, 16),
    last_told=date(2026, 4, 30),
    pictures=(PictureState(1, 7, "Open studs", looked_over=True, broken=False),),
)


def reasons(state: GoingOut) -> list[str]:
    return [reason.sentence for reason in may_go_out(state).hard]


def test_a_whole_episode_may_go_out():
    assert may_go_out(FINE).allowed


def test_every_missing_thing_is_named_not_just_the_first():
    bare = replace(FINE, title=" ", text="\n", pictures=(PictureState(1, 7, "", looked_over=False, broken=True),))
    assert reasons(bare) == [
        "It has no title",
        "There is no text",
        "Picture 1 has no words",
        "Picture 1 is not looked over",
        "Picture 1 cannot be drawn",
    ]


@pytest.mark.parametrize(
    ("more", "sentence"),
    [
        ({"to_day": date(2026, 5, 17)}, "Its last day lies ahead"),
        ({"to_day": date(2026, 4, 30)}, "Its last day is before its first"),
        ({"from_day": date(2026, 5, 17)}, "It has not begun yet"),
        ({"from_day": date(2026, 4, 30)}, "It begins too early"),
    ],
)
def test_days_that_cannot_be_told_of_stop_it(more, sentence):
    assert reasons(replace(FINE, **more)) == [sentence]


def test_a_sentence_that_is_no_longer_so_asks_for_a_look_but_does_not_stop():
    verdict = may_go_out(replace(FINE, no_longer_so=("East passed.",)))
    assert verdict.allowed
    assert verdict.wishes[0].detail == "East passed. The record no longer says so."


def test_each_reason_leads_to_where_it_is_settled():
    bare = replace(FINE, title="", text="", pictures=(PictureState(1, 7, "", looked_over=False, broken=False),))
    assert [reason.href for reason in may_go_out(bare).reasons] == ["#f-title", "#f-text", "#picture-7", "#picture-7"]
