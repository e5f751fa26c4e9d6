"""Counts, lists and addresses in plain English."""

import pytest

from webapp.values.words import join_words, plain_slug, plural, sentence_list


@pytest.mark.parametrize(
    ("n", "one", "shown"),
    [
        (0, "picture", "0 pictures"),
        (1, "picture", "1 picture"),
        (2, "picture", "2 pictures"),
        (2, "delivery", "2 deliveries"),
        (2, "day", "2 days"),
        (3, "box", "3 boxes"),
        (3, "batch", "3 batches"),
        (3, "pass", "3 passes"),
    ],
)
def test_a_count_takes_its_noun_along(n, one, shown):
    assert plural(n, one) == shown


def test_an_irregular_plural_is_given():
    assert plural(2, "piece of advice", "pieces of advice") == "2 pieces of advice"


@pytest.mark.parametrize(
    ("words", "shown"), [((), ""), (("N",), "N"), (("N", "E"), "N and E"), (("N", "E", "W"), "N, E and W")]
)
def test_words_are_joined_as_they_are_spoken(words, shown):
    assert join_words(words) == shown


def test_several_sentences_become_one_refusal():
    parts = ("framing inspection has not passed.", "", "no picture of the vent pipe")
    assert sentence_list(parts) == "Framing inspection has not passed; no picture of the vent pipe."
    assert sentence_list(()) == ""


@pytest.mark.parametrize(
    ("text", "slug"),
    [
        ("North wall: rough electrical", "north-wall-rough-electrical"),
        ("  The builder's 2½ in gap!  ", "the-builders-2-1-2-in-gap"),
        ("Façade für Straße", "facade-fur-strasse"),
        ("--", ""),
        ("壁", ""),
        ("word " * 40, "-".join(["word"] * 16)),
    ],
)
def test_a_title_becomes_an_address_of_plain_letters(text, slug):
    assert plain_slug(text) == slug
