"""Two versions of one thing that is edited: what a form showed, what was typed in it, and how the thing stands now."""

from collections.abc import Sequence

from webapp.core.forms import BadForm, FieldError, FormState, Submitted

WAS = "was:"
"""before the name of a field: what it held when the form was opened; sent by the outbox for forms that edit"""


def _plain(values: Sequence[str]) -> tuple[str, ...]:
    return tuple(text for value in values if (text := value.replace("\r\n", "\n").strip()))


def _shown(values: Sequence[str]) -> str:
    return f"“{', '.join(values)}”" if values else "empty"


def merged(sent: Submitted, now: FormState) -> Submitted:
    """The form with what others changed meanwhile in fields that were left alone here.

    `now` is the form as it would be opened now. Raises BadForm when one field was changed on both sides: it shows both,
    to choose from. A form that does not say what it showed is taken as it is.
    """
    typed = {name: tuple(values) for name, values in sent.typed().items()}
    errors: dict[str, FieldError] = {}
    for name in [name for name in typed if name.startswith(WAS)]:
        field = name.removeprefix(WAS)
        was, mine, theirs = _plain(typed.pop(name)), _plain(typed.get(field, ())), _plain(now.values(field))
        if mine == was:
            typed[field] = now.values(field)
        elif theirs not in {was, mine}:
            sentence = f"Changed on both sides: {_shown(theirs)} elsewhere meanwhile, {_shown(mine)} here."
            errors[field] = FieldError(sentence, tuple(side[0] for side in (theirs, mine) if len(side) == 1))
    if errors:
        raise BadForm(FormState(typed, errors))
    files = [(name, file) for name in sent.file_names() for file in sent.files(name)]
    return Submitted([*((name, value) for name, values in typed.items() for value in values), *files])
