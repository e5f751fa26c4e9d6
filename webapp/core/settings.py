"""Settings: `STUDBAY_*` variables of the environment, read once at the start.

Each one is in the README's table; a test compares the two.
"""

import os
from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from pathlib import Path

from webapp.values.errors import BadInput

THIS_MACHINE = "127.0.0.1"


def home_data() -> Path:
    """The data folder when none is named: `studbay-data` in the folder one stands in."""
    return Path.cwd() / "studbay-data"


@dataclass(frozen=True, slots=True)
class Settings:
    """What the owner may set. Paths absolute, sizes in megabytes, ports as numbers."""

    data: Path = field(default_factory=home_data)
    """STUDBAY_DATA: folder with the record, the pictures and the copies"""
    host: str = THIS_MACHINE
    """STUDBAY_HOST: address to listen on; 0.0.0.0 lets the phone on the same network in"""
    port: int = 8730
    """STUDBAY_PORT: port to listen on; 0 takes a free one"""
    hosts: tuple[str, ...] = ()
    """STUDBAY_HOSTS: names under which the server may be asked, comma between; addresses always may"""
    https: bool = False
    """STUDBAY_HTTPS: `yes` serves https with a certificate of its own, as `--https` does"""
    proxy: str = ""
    """STUDBAY_PROXY: address of a reverse proxy whose word about https is believed"""
    picture_mb: int = 30
    """STUDBAY_PICTURE_MB: largest picture taken in, in megabytes"""
    paper_mb: int = 40
    """STUDBAY_PAPER_MB: largest PDF of a paper taken in, in megabytes"""
    voice_mb: int = 30
    """STUDBAY_VOICE_MB: largest voice note taken in, in megabytes"""
    keep_copies: int = 10
    """STUDBAY_KEEP_COPIES: how many automatic copies are kept in `backups/`"""
    demo: bool = False
    """set by `studbay demo`, not by a variable"""

    @property
    def database(self) -> Path:
        return self.data / "studbay.sqlite3"

    @property
    def photos(self) -> Path:
        return self.data / "photos"

    @property
    def papers(self) -> Path:
        return self.data / "papers"

    @property
    def voice(self) -> Path:
        return self.data / "voice"

    @property
    def arriving(self) -> Path:
        """Files that came before the form they belong to."""
        return self.data / "arriving"

    @property
    def backups(self) -> Path:
        return self.data / "backups"


def _number(name: str, text: str, most: int) -> int:
    if not text.isdecimal() or int(text) > most:
        raise BadInput(f"{name} is “{text}”; it has to be a whole number up to {most}.")
    return int(text)


def _yes(name: str, text: str) -> bool:
    if text.lower() not in {"yes", "no"}:
        raise BadInput(f"{name} is “{text}”; it has to be yes or no.")
    return text.lower() == "yes"


def read_settings(env: Mapping[str, str] | None = None, **given: object) -> Settings:
    """Settings from the environment; what is `given` (from the command line, not None) goes first.

    Raises BadInput with a sentence that names the variable.
    """
    env = os.environ if env is None else env
    known = {f"STUDBAY_{name.name.upper()}" for name in fields(Settings)} - {"STUDBAY_DEMO"}
    unknown = sorted(name for name in env if name.startswith("STUDBAY_") and name not in known)
    if unknown:
        raise BadInput(f"{unknown[0]} is not a setting. Settings are: {', '.join(sorted(known))}.")
    found: dict[str, object] = {}
    if text := env.get("STUDBAY_DATA"):
        found["data"] = Path(text).expanduser().absolute()
    for name in ("host", "proxy"):
        if text := env.get(f"STUDBAY_{name.upper()}"):
            found[name] = text
    if text := env.get("STUDBAY_HTTPS"):
        found["https"] = _yes("STUDBAY_HTTPS", text)
    if text := env.get("STUDBAY_HOSTS"):
        found["hosts"] = tuple(part.strip().lower() for part in text.split(",") if part.strip())
    for name, most in (
        ("port", 65535),
        ("picture_mb", 200),
        ("paper_mb", 500),
        ("voice_mb", 500),
        ("keep_copies", 1000),
    ):
        if text := env.get(f"STUDBAY_{name.upper()}"):
            found[name] = _number(f"STUDBAY_{name.upper()}", text, most)
    found |= {name: value for name, value in given.items() if value is not None}
    return Settings(**found)  # type: ignore[arg-type]
