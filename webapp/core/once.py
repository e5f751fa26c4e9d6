"""Once only: what a phone sends carries an id made there; the same id again gives the first answer again."""

import hashlib
import secrets
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from sqlmodel import Session, select

from webapp.core import clock
from webapp.core.forms import Submitted
from webapp.core.tables import Sent
from webapp.values.errors import BadInput

LONGEST_ID = 80
SENT = "studbay-sent"
"""header with the id of a sending whose form has none of its own"""


@dataclass(frozen=True, slots=True)
class Seen:
    """What a phone knew: the last change its page showed (aware), and its own clock when the button was pressed."""

    at: datetime
    recorded: datetime


def digest_of(parts: Iterable[str]) -> str:
    """SHA-256 over the parts, each closed by a NUL so that moving a letter between fields shows."""
    return hashlib.sha256("\0".join(parts).encode()).hexdigest()


def _form_digest(sent: Submitted) -> str:
    """The digest of a form's words. Files are not in it: the same words with the same id are the same sending."""
    return digest_of(f"{name}={value}" for name, values in sorted(sent.typed().items()) for value in values)


def new_id() -> str:
    """An id for a form drawn here, so that pressing its button twice saves once."""
    return secrets.token_hex(12)


def id_of(sent: Submitted) -> str:
    """The id a form brought along; empty for one without."""
    return sent.text("sent_id")[:LONGEST_ID]


def _answered(session: Session, sent_id: str, digest: str) -> str | None:
    """The path answered when this id came before; None when it is new. Raises BadInput when the content differs."""
    if not sent_id:
        return None
    row = session.exec(select(Sent).where(Sent.id == sent_id)).first()
    if row is None:
        return None
    if row.digest != digest:
        raise BadInput("This was sent once already with other words. Open the page again and send it anew.")
    return row.answer


@dataclass(frozen=True, slots=True)
class Saving:
    """One sending of a form. `before`: the path answered when it came before; then nothing is to be written."""

    session: Session
    sent_id: str
    digest: str
    before: str | None

    def remember(self, answer: str) -> str:
        """Keep the path that answers this sending, and answer it."""
        if self.sent_id:
            self.session.add(Sent(id=self.sent_id, digest=self.digest, answer=answer, arrived_at=clock.now()))
        return answer


def saving(session: Session, sent: Submitted, digest: str = "") -> Saving:
    """Begin to save a form once; its digest is that of its words unless it is given.

    Raises BadInput when its id came before with other words.
    """
    sent_id, digest = id_of(sent), digest or _form_digest(sent)
    return Saving(session, sent_id, digest, _answered(session, sent_id, digest))


class AnsweredBefore(Exception):
    """This sending came before and was saved; `path` is where it was pressed."""

    def __init__(self, path: str) -> None:
        super().__init__(path)
        self.path = path


def refuse_second(session: Session, sent_id: str) -> None:
    """Raises AnsweredBefore when this sending was saved before."""
    row = session.exec(select(Sent).where(Sent.id == sent_id)).first()
    if row is not None:
        raise AnsweredBefore(row.answer)


def remember_sent(session: Session, sent_id: str, path: str) -> None:
    """Keep that this sending is saved, to be committed with what it saved."""
    session.add(Sent(id=sent_id, digest="", answer=path, arrived_at=clock.now()))
