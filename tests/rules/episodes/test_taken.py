"""What the text was taken from stays beside it, so that a later change of the record shows."""

from webapp.episodes.rules.drafting import HOURS, INSPECTOR, FactRef, Sentence
from webapp.episodes.rules.taken import new_since, no_longer_so, sentences_from_text, sentences_to_text


def a_sentence(text: str, section: str = INSPECTOR, *details: str) -> Sentence:
    return Sentence(text, section, tuple(FactRef("Result, 7 May 2026", detail, "/v/1") for detail in details))


PASSED = a_sentence("East passed.", INSPECTOR, "Rough, East: passed")


def test_what_was_kept_reads_back_the_same():
    kept = (PASSED, a_sentence("“Ground” the box – ½", HOURS, "a", "b"))
    assert sentences_from_text(sentences_to_text(kept)) == kept
    assert sentences_from_text("") == ()


def test_a_sentence_whose_result_was_withdrawn_is_no_longer_so():
    assert no_longer_so((PASSED,), ()) == ("East passed.",)
    assert no_longer_so((PASSED,), (PASSED,)) == ()


def test_a_sentence_that_only_grew_is_still_so():
    grown = a_sentence("East and north passed.", INSPECTOR, "Rough, East: passed", "Rough, North: passed")
    assert no_longer_so((PASSED,), (grown,)) == ()
    assert new_since((PASSED,), (grown,)) == {"East and north passed."}


def test_hours_that_grew_are_no_reason_to_doubt():
    assert no_longer_so((a_sentence("2 h.", HOURS, "2 h"),), (a_sentence("4 h.", HOURS, "4 h"),)) == ()
