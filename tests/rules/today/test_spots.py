"""Notes beside a section: at most seven, apart from each other, and no leader crosses another."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.today.rules.spots import FIRST, LAST, STEP, WALL, Said, part_of, placed, spots_of

SAID = st.builds(Said, st.text(max_size=60), st.text(max_size=60), st.just("hard"), st.sampled_from(sorted(WALL)))


@given(st.lists(SAID, max_size=12), st.sampled_from(["wall", "ceiling", "trench", "slab", "floor", "outside face"]))
def test_notes_never_overlap_cross_or_leave_the_drawing(said, kind):
    notes = placed(said, kind)
    assert len(notes) == min(len(said), 7)
    levels = [note.at for note in notes]
    assert all(later - earlier >= STEP for earlier, later in pairwise(levels))
    assert all(FIRST <= level <= LAST for level in levels)
    assert [note.y for note in notes] == sorted(note.y for note in notes)
    assert all(len(note.title) <= 22 and len(note.detail) <= 22 for note in notes)


@pytest.mark.parametrize("kind", ["wall", "ceiling", "floor", "slab", "trench", "outside face"])
def test_every_surface_has_a_place_for_every_part(kind):
    assert spots_of(kind).keys() == WALL.keys()


@pytest.mark.parametrize(
    ("words", "part"),
    [
        ("Rough electrical", "cable"),
        ("Rough plumbing, test on", "pipe"),
        ("Picture 7: duct sleeve", "duct"),
        ("Seal the hole in the plate", "plate"),
        ("Insulation and retarder", "insulation"),
        ("Framing", "framing"),
        ("Would two screws do?", "cavity"),
        ("Whole wall after insulation", "insulation"),
        ("Whole wall", "cavity"),
    ],
)
def test_a_note_points_at_what_its_words_are_about(words, part):
    assert part_of(words) == part
