"""Once only: what a phone sends carries an id made there; the same id again gives the first answer again."""

import hashlib
import secrets
from collections.abc import Iterable

from sqlmodel import Session, select

from webapp.core import clock
from webapp.core.forms import Submitted
from webapp.core.tables import Sent
from webapp.values.errors import BadInput


def digest_of(parts: Iterable[str]) -> str:
    """SHA-256 over the parts, each closed by a NUL so that moving a letter between fields shows."""
    return hashlib.sha256("\0".join(parts).encode()).hexdigest()


def form_digest(sent: Submitted) -> str:
    """The digest of a form's words. Files are not in it: the same words with the same id are the same sending."""
    return digest_of(f"{name}={value}" for name, values in sorted(sent.typed().items()) for value in values)


def new_id() -> str:
    """An id for a form drawn here, so that pressing its button twice saves once."""
    return secrets.token_hex(12)


def answered(session: Session, sent_id: str, digest: str) -> str | None:
    """The path answered when this id came before; None when it is new. Raises BadInput when the content differs."""
    if not sent_id:
        return None
    row = session.exec(select(Sent).where(Sent.id == sent_id)).first()
    if row is None:
        return None
    if row.digest != digest:
        raise BadInput("This was sent once already with other words. Open the page again and send it anew.")
    return row.answer


def remember_sent(session: Session, sent_id: str, digest: str, answer: str) -> None:
    if sent_id:
        session.add(Sent(id=sent_id, digest=digest, answer=answer, arrived_at=clock.now()))
