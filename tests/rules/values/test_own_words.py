"""The builder's own words stand where Studbay's general ones would, with the article to suit."""

import pytest

from webapp.values.own_words import GENERAL, own, spoken

HERE = (("inspection", "control"), ("inspections", "controls"), ("board", "plasterboard"), ("rough-in", "first fix"))


def test_without_own_words_the_text_says_studbays():
    assert spoken(f"No {own('inspection')} yet; {own('Permits')} first.") == "No inspection yet; Permits first."


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (f"An {own('inspection')} is owed.", "A control is owed."),
        (f"a {own('rough-in')} first", "a first fix first"),
        (f"A {own('permit')} has a clock", "A permit has a clock"),
        (f"{own('Inspections')} and {own('board')}", "Controls and plasterboard"),
        (f"plan {own('inspection')}", "plan control"),
    ],
)
def test_a_word_is_said_as_here_with_its_capital_and_its_article(text, said):
    assert spoken(text, HERE) == said


def test_an_article_turns_to_an_before_a_vowel():
    assert spoken(f"A {own('permit')}", (("permit", "approval"),)) == "An approval"


def test_what_the_builder_typed_is_never_touched():
    assert spoken("The inspection of my permit board", HERE) == "The inspection of my permit board"


def test_only_the_general_words_can_be_changed():
    assert {own(word) for pair in GENERAL for word in pair}
    with pytest.raises(KeyError):
        own("surface")
