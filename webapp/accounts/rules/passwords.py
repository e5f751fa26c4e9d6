"""What a password has to be: long. No rule about digits or signs, which only makes it hard to remember."""

import unicodedata

from webapp.values.errors import BadInput

SHORTEST = 10
LONGEST = 200


def settled(password: str) -> str:
    """The password in one spelling, so that a phone and a laptop that compose é differently mean the same."""
    return unicodedata.normalize("NFKC", password.strip())


def read_new_password(password: str) -> str:
    """The settled password; raises BadInput with a sentence when it is too short or too long."""
    plain = settled(password)
    if len(plain) < SHORTEST:
        raise BadInput(f"Make it at least {SHORTEST} characters long. Four words in a row are easy to keep in mind.")
    if len(plain) > LONGEST:
        raise BadInput(f"{LONGEST} characters are enough.")
    if len(set(plain)) == 1:
        raise BadInput("One sign over and over is guessed at once. Take a few words in a row.")
    return plain
