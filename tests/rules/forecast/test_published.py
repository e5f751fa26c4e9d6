"""The passes and the three-point sums against published worked examples. None of them knows a builder or a calendar."""

from fractions import Fraction
from math import erf, sqrt

import pytest

from webapp.forecast.rules.estimates import Estimate, path_of
from webapp.forecast.rules.network import Network, Node, network_of
from webapp.forecast.rules.passes import plain_passes
from webapp.plan.rules.graph import Link


def read(text: str) -> Network:
    """`a 4 -; b 2 a,c`: name, length, what it needs."""
    nodes, links = [], []
    for line in text.split(";"):
        name, length, needs = line.split()
        nodes.append(Node(name, int(length)))
        links += [Link(name, need) for need in needs.split(",") if need != "-"]
    return network_of(nodes, links)


HOUSE = (
    "a 0 -; b 4 a; c 2 b; d 4 c; e 6 d; f 1 c; g 2 f; h 3 f; i 2 d; j 4 d,g; k 10 i,j,h; l 3 k; m 1 l; n 2 l; o 3 l;"
    "p 2 e; q 1 p; r 1 c; s 2 o,t; t 3 m,n; u 1 t; v 2 q,r; w 5 v; x 0 s,u,w"
)
"""Levy, Thompson, Wiest, "The ABCs of the Critical Path Method", Harvard Business Review, September 1963 (the table as
read in a public copy that cites it)"""
HOUSE_SLACK = "e 8 f 1 g 1 h 4 i 2 m 1 o 2 p 8 q 8 r 20 u 1 v 8 w 8"
VANHOUCKE = "1 0 -; 2 4 1; 3 9 1; 4 1 1; 5 4 2; 6 5 4; 7 1 6; 8 7 7; 9 8 5; 10 3 3; 11 3 7; 12 0 8,9,10,11"
"""Vanhoucke, "Measuring Time", Springer 2009, p. 18 (as in the tests of a public package)"""
LECTURE = "A 3 -; B 5 A; C 8 A; D 10 B; E 5 B; F 7 C; G 12 D; H 8 E,F; I 3 G,H"
"""a lecture sheet of a construction planning course, "Example 3. CPM" (public copy)"""
SERVER = "A 2 -; B 4 A; C 5 A; D 2 B; E 1 B; F 8 B,C; G 3 D,E; H 5 F; I 4 F; J 7 G,H,I"
"""server installation at a school, a textbook problem of operations management (public worked answer)"""


@pytest.mark.parametrize(
    ("text", "length", "listed"),
    [
        (HOUSE, 34, HOUSE_SLACK),
        (VANHOUCKE, 16, "3 4 4 2 6 2 7 2 8 2 10 4 11 6"),
        (LECTURE, 33, "C 4 E 9 F 4 H 4"),
        (SERVER, 27, "B 1 D 9 E 10 G 9 I 1"),
    ],
    ids=["a house of 24 jobs", "twelve of a book", "a lecture sheet", "a server at a school"],
)
def test_length_and_slack_are_those_of_the_published_tables(text, length, listed):
    network = read(text)
    found = plain_passes(network)
    assert found.length == length
    shown = {node.key: one for node, one in zip(network.nodes, found.slack, strict=True) if one}
    words = listed.split()
    slack = {key: int(days) for key, days in zip(words[::2], words[1::2], strict=True)}
    assert shown == slack, "whatever is not listed is critical"


def test_three_point_means_and_the_chance_of_a_path():
    """General Foundry: Render, Stair, Hanna, "Quantitative Analysis for Management", ch. 12/13 (estimates and answers
    from memory of the book, recomputed): 15 weeks, variance 3.11, P(<= 16) 0.716 where the book rounds z to 0.57."""
    weeks = {"A": (1, 2, 3), "C": (1, 2, 3), "E": (1, 4, 7), "G": (3, 4, 11), "H": (1, 2, 3)}
    mean, variance = path_of(Estimate(*three) for three in weeks.values())
    assert mean == 15
    assert round(float(variance), 2) == 3.11
    chance = (1 + erf((16 - 15) / sqrt(float(variance)) / sqrt(2))) / 2
    assert abs(chance - 0.716) < 0.002


@pytest.mark.parametrize(
    ("three", "mean", "variance"),
    [
        ((5, 6, 7), 6, 0.11),
        ((1, 3, 5), 3, 0.44),
        ((1, 4, 7), 4, 1),
        ((1, 2, 9), 3, 1.78),
        ((2, 2, 8), 3, 1),
        ((4, 4, 10), 5, 1),
    ],
)
def test_means_and_variances_of_a_course_problem(three, mean, variance):
    """A published course problem of ten activities, 17 in all along C-F-H-J."""
    found = Estimate(*three)
    assert (found.mean, round(float(found.variance), 2)) == (mean, variance)


def test_the_paths_of_an_advertising_start_up():
    """A worked solution of a course: A-C-E 20.50 (sd 1.118), D-F-G 21.50 (sd 1.344), B-H-I 19.50 (sd 0.726)."""
    days = {"A": (5, 6, 7), "B": (8, 8, 11), "C": (6, 8, 11), "D": (9, 12, 15), "E": (5, 6, 9), "F": (5, 6, 7)}
    days |= {"G": (2, 3, 7), "H": (4, 4, 5), "I": (5, 7, 8)}
    for path, mean, spread in (("ACE", 20.5, 1.118), ("DFG", 21.5, 1.344), ("BHI", 19.5, 0.726)):
        found = path_of(Estimate(*days[name]) for name in path)
        assert float(found[0]) == mean and round(sqrt(float(found[1])), 3) == spread
    assert path_of(()) == (Fraction(0), Fraction(0))
