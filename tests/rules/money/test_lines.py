"""What a line of spend may say."""

import pytest

from webapp.money.rules.lines import KINDS, what_is_odd


def test_an_ordinary_line_a_refund_and_a_gift_can_stand():
    assert what_is_odd("into the building", 59_616, 4_416, None) == {}
    assert what_is_odd("into the building", -10_267, -883, None) == {}
    assert what_is_odd("gift", 0, 0, 24_000) == {}


@pytest.mark.parametrize(
    ("line", "parts"),
    [
        (("gift", 100, 0, None), {"total", "value"}),
        (("gift", 0, 0, 0), {"value"}),
        (("hired", 0, 0, None), {"total"}),
        (("hired", 100, 101, None), {"tax"}),
        (("hired", 100, -1, None), {"tax"}),
        (("hired", -100, 1, None), {"tax"}),
        (("fees", 100, 0, 50), {"value"}),
    ],
)
def test_each_part_that_cannot_be_is_named(line, parts):
    odd = what_is_odd(*line)
    assert set(odd) == parts
    assert all(sentence.endswith(".") for sentence in odd.values())


def test_fees_and_gifts_are_kinds():
    assert {"fees", "gift"} <= set(KINDS)
