"""Estimates: low, likely and high, because one number for work never done before looks like a fact."""

from dataclasses import dataclass
from typing import Self

from webapp.values.duration import show_minutes
from webapp.values.errors import BadInput


@dataclass(frozen=True, slots=True)
class Estimate:
    """Three guesses in minutes, never out of order."""

    low: int
    likely: int
    high: int

    def __post_init__(self) -> None:
        if self.low < 0:
            raise BadInput("A guess of hours cannot be less than nothing.")
        low, likely, high = map(show_minutes, (self.low, self.likely, self.high))
        if self.low > self.likely:
            raise BadInput(f"The low guess ({low}) is more than the likely one ({likely}).")
        if self.likely > self.high:
            raise BadInput(f"The high guess ({high}) is less than the likely one ({likely}).")

    @classmethod
    def of(cls, low: int, likely: int, high: int) -> Self:
        """Minutes, in order. Raises BadInput naming the two guesses that are out of order."""
        return cls(low, likely, high)

    def show(self) -> str:
        """`4 to 9 h, likely 6 h`; three equal guesses are shown once."""
        if self.low == self.high:
            return show_minutes(self.likely)
        return f"{self._show_range()}, likely {show_minutes(self.likely)}"

    def _show_range(self) -> str:
        low, high = show_minutes(self.low), show_minutes(self.high)
        low_number, _, low_unit = low.partition(" ")
        if low_unit == high.partition(" ")[2]:
            return f"{low_number} to {high}"
        return f"{low} to {high}"
