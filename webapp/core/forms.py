"""Reading a sent form: every field that is wrong gets its own sentence, and what was typed stays."""

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import BinaryIO, Protocol, TypeVar

from webapp.values.errors import BadInput

Value = TypeVar("Value")


@dataclass(frozen=True, slots=True)
class FieldError:
    """A sentence beside a field, with the values that were likely meant."""

    sentence: str
    likely: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class FormState:
    """What a template shows in a form: typed values (or defaults) and the errors beside them."""

    typed: Mapping[str, Sequence[str]] = field(default_factory=dict)
    errors: Mapping[str, FieldError] = field(default_factory=dict)

    @classmethod
    def of(cls, **defaults: str) -> "FormState":
        return cls({name: (value,) for name, value in defaults.items()})

    def value(self, name: str, default: str = "") -> str:
        values = self.typed.get(name)
        return values[-1] if values else default

    def values(self, name: str) -> tuple[str, ...]:
        return tuple(self.typed.get(name, ()))

    def error(self, name: str) -> FieldError | None:
        return self.errors.get(name)

    def has(self, name: str, value: str) -> bool:
        return value in self.typed.get(name, ())


class BadForm(Exception):
    """A form that cannot be taken as it is; the route draws it again with 422."""

    def __init__(self, state: FormState) -> None:
        super().__init__("; ".join(error.sentence for error in state.errors.values()))
        self.state = state


class Upload(Protocol):
    """A sent file, spooled to disk by the parser."""

    filename: str | None
    file: BinaryIO
    size: int | None


class Submitted:
    """One sent form: text fields and files."""

    def __init__(self, items: Iterable[tuple[str, str | Upload]]) -> None:
        self._texts: dict[str, list[str]] = {}
        self._files: dict[str, list[Upload]] = {}
        for name, value in items:
            if isinstance(value, str):
                self._texts.setdefault(name, []).append(value)
            elif value.filename:  # an empty file input sends one part without a name
                self._files.setdefault(name, []).append(value)

    def text(self, name: str) -> str:
        return self._texts.get(name, [""])[-1].strip()

    def texts(self, name: str) -> list[str]:
        return [value.strip() for value in self._texts.get(name, [])]

    def files(self, name: str) -> list[Upload]:
        return self._files.get(name, [])

    def file_names(self) -> Collection[str]:
        return self._files.keys()

    def names(self) -> Collection[str]:
        return self._texts.keys()

    def typed(self) -> dict[str, Sequence[str]]:
        return {name: tuple(values) for name, values in self._texts.items()}


class Reader:
    """Takes fields one after the other and collects every error; `done()` raises BadForm when there was one."""

    def __init__(self, sent: Submitted) -> None:
        self.sent = sent
        self.errors: dict[str, FieldError] = {}
        self._kept: dict[str, Sequence[str]] = {}

    def wrong(self, name: str, sentence: str, likely: tuple[str, ...] = ()) -> None:
        self.errors.setdefault(name, FieldError(sentence, likely))

    def text(self, name: str, required: str = "", most: int = 4000) -> str:
        """The trimmed text; `required` is the sentence shown when it is empty."""
        value = self.sent.text(name)
        if required and not value:
            self.wrong(name, required)
        if len(value) > most:
            self.wrong(name, f"This is {len(value)} characters; {most} fit.")
        return value

    def parsed(self, name: str, parse: Callable[[str], Value], required: str = "") -> Value | None:
        """`parse(text)`; None when empty or when `parse` raised BadInput (its sentence goes beside the field)."""
        text = self.sent.text(name)
        if not text:
            if required:
                self.wrong(name, required)
            return None
        try:
            return parse(text)
        except BadInput as bad:
            self.wrong(name, bad.sentence, bad.likely)
            return None

    def whole(self, name: str, required: str = "", least: int = 0, most: int = 1_000_000) -> int | None:
        """A whole number between `least` and `most`."""

        def number(text: str) -> int:
            if not text.lstrip("-").isdecimal():
                raise BadInput(f"“{text}” is not a whole number.")
            if not least <= int(text) <= most:
                raise BadInput(f"A number from {least} to {most} fits here.")
            return int(text)

        return self.parsed(name, number, required)

    def one_of(self, name: str, choices: Collection[str], default: str = "", required: str = "") -> str:
        value = self.sent.text(name) or default
        if value in choices:
            return value
        if value or required:
            self.wrong(name, required or "Choose one of the list.")
        return default

    def many_of(self, name: str, choices: Collection[str]) -> tuple[str, ...]:
        values = tuple(value for value in self.sent.texts(name) if value)
        if any(value not in choices for value in values):
            self.wrong(name, "Choose from the list; one of these is not there any more.")
        return tuple(value for value in values if value in choices)

    def kept(self, name: str, keep: Callable[[Upload], str]) -> str:
        """What `keep` says of the file sent, or what it said before; empty when no file was sent.

        It comes back as `<name>_kept`, so that an error in another field does not lose the file.
        """
        try:
            for sent in self.sent.files(name)[:1]:
                self._kept[f"{name}_kept"] = (keep(sent),)
        except BadInput as bad:
            self.wrong(name, bad.sentence, bad.likely)
            return ""
        return self._kept.get(f"{name}_kept", (self.sent.text(f"{name}_kept"),))[0]

    def file(self, name: str, keep: Callable[[Upload], int]) -> int | None:
        """The id that `keep` gives to the file sent, or None when none was."""
        kept = self.kept(name, lambda sent: str(keep(sent)))
        return int(kept) if kept.isdecimal() else None

    def flag(self, name: str) -> bool:
        return self.sent.text(name) not in {"", "0", "no", "off"}

    def state(self) -> FormState:
        return FormState(self.sent.typed() | self._kept, self.errors)

    def done(self) -> None:
        if self.errors:
            raise BadForm(self.state())
