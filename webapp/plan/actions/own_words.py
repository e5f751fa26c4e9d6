"""The builder says what a general word is called here."""

from collections.abc import Mapping

from sqlmodel import Session, col, delete

from webapp.plan.models import BuildWord


def say_own_words(session: Session, build_id: int, words: Mapping[str, tuple[str, str]]) -> None:
    """Keep `words`: Studbay's word to (one, many); what is not in it goes by Studbay's own word again."""
    session.exec(delete(BuildWord).where(col(BuildWord.build_id) == build_id))
    session.add_all(BuildWord(build_id=build_id, word=word, one=one, many=many) for word, (one, many) in words.items())
    session.flush()
