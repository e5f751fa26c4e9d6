"""Three-point estimates as the textbooks have them: mean (a + 4 m + b) / 6 and standard deviation (b - a) / 6 (Malcolm,
Roseboom, Clark, Fazar, "Application of a Technique for Research and Development Program Evaluation", Operations
Research 7, 1959). For the mean that is shown and for checks; the spread of a forecast has other sources.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Estimate:
    """The least, the likely and the most it may take, in one unit."""

    least: int
    likely: int
    most: int

    @property
    def mean(self) -> Fraction:
        return Fraction(self.least + 4 * self.likely + self.most, 6)

    @property
    def variance(self) -> Fraction:
        return Fraction(self.most - self.least, 6) ** 2


def path_of(estimates: Iterable[Estimate]) -> tuple[Fraction, Fraction]:
    """Mean and variance of things done one after the other, taken as independent."""
    found = tuple(estimates)
    return sum((one.mean for one in found), Fraction()), sum((one.variance for one in found), Fraction())
