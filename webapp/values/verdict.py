"""Verdicts: a "no" lists every reason, and each reason leads to where it is settled."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Way:
    """A way on from a refusal: the words of the link, where it leads, and what it costs or means."""

    label: str
    href: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Reason:
    """One thing that stops something.

    A hard reason (hold point, cure, missing goods) cannot be skipped. A wish can, with a note why.
    """

    sentence: str
    detail: str = ""
    href: str = ""
    hard: bool = True


@dataclass(frozen=True, slots=True)
class Verdict:
    """The whole list of what stops something; an empty list means that nothing does."""

    reasons: tuple[Reason, ...] = ()

    @property
    def allowed(self) -> bool:
        """Whether nothing hard is left. Wishes may still be open."""
        return not self.hard

    @property
    def hard(self) -> tuple[Reason, ...]:
        """The reasons that cannot be skipped, in the order they were given."""
        return tuple(reason for reason in self.reasons if reason.hard)

    @property
    def wishes(self) -> tuple[Reason, ...]:
        """The reasons that may be skipped with a note, in the order they were given."""
        return tuple(reason for reason in self.reasons if not reason.hard)
