"""The scenario's CSV files as they lie in the package."""

from pathlib import Path

_CONTENT = Path(__file__).parent.parent / "content"


def read_packaged() -> dict[str, str]:
    """The text of every packaged CSV file by its name without ending; read afresh each time."""
    return {path.stem: path.read_text(encoding="utf-8") for path in sorted(_CONTENT.glob("*.csv"))}
