"""The only errors that rules and actions raise; every sentence in them is written for the builder."""

from webapp.values.verdict import Verdict, Way


class BadInput(ValueError):
    """Something typed cannot be read.

    `sentence` stands beside the field. `likely` holds values that the same field reads, to offer as buttons.
    """

    def __init__(self, sentence: str, likely: tuple[str, ...] = ()) -> None:
        super().__init__(sentence)
        self.sentence = sentence
        self.likely = likely


class RuleBroken(Exception):
    """An action was refused: nothing was saved, and the verdict says everything that stands in the way.

    `answers` are ways to save it after all, each the name and value of a button of the form, and what stands on it.
    """

    def __init__(
        self,
        verdict: Verdict,
        heading: str = "Not saved",
        ways_on: tuple[Way, ...] = (),
        answers: tuple[tuple[str, str, str], ...] = (),
    ) -> None:
        super().__init__(": ".join([heading, "; ".join(reason.sentence for reason in verdict.reasons)]))
        self.verdict = verdict
        self.heading = heading
        self.ways_on = ways_on
        self.answers = answers


class NotFound(Exception):
    """The thing asked for is not in this build, or was never there."""

    def __init__(self, sentence: str) -> None:
        super().__init__(sentence)
        self.sentence = sentence
