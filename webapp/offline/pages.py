"""What the sheets about missing signal receive."""

from dataclasses import dataclass

from webapp.core.sheets import Sheet


@dataclass(frozen=True, slots=True)
class NotSentPage:
    """G8: what waits on this phone; the phone fills it in."""

    sheet: Sheet


@dataclass(frozen=True, slots=True)
class NotKeptPage:
    """Shown by the worker for a sheet this phone does not keep. Carries nothing private: it is drawn for anybody."""

    sheet: Sheet
