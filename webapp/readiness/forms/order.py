"""Where something is moved to in its list, and why a broken hold point is kept."""

from webapp.core.forms import BadForm, FieldError, FormState, Submitted
from webapp.readiness.actions.order import Move

EARLIER, LATER = -1, 1
NO_REASON = "Write why you keep it. The line stays in view with your reason until the order is mended."


def read_move(sent: Submitted) -> Move:
    """`to` is "earlier", "later" or a place counted from 1; anything else moves nothing. Raises BadForm when a broken
    hold point is to be kept without a reason.
    """
    to = sent.text("to")
    why = sent.text("why")[:500] if sent.text("keep") else ""
    if sent.text("keep") and not why:
        raise BadForm(FormState(sent.typed(), {"why": FieldError(NO_REASON)}))
    if to.isdecimal() and len(to) < 6:
        return Move(to=max(int(to), 1), why=why)
    return Move(by={"earlier": EARLIER, "later": LATER}.get(to, 0), why=why)
