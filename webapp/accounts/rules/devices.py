"""Which phone or laptop signed in, in plain words.

Browsers say so in the User-Agent field: product names and, in round brackets, a comment (RFC 9110, 10.1.5). A
small screen is told by "Mobi" or "Tablet" in it; the rest of the comment is shown as it came.
"""

import re

TELLS_NOTHING = {"", "x11", "wayland", "compatible", "u", "mobile", "tablet"}
LONGEST = 60


def device_words(user_agent: str) -> str:
    """`Phone`, `Tablet`, `Laptop or desk` or the program's own name, with what its comment says of the machine."""
    comment = re.match(r"[\w./ -]+\(([^()]*)\)", user_agent)
    if comment is None:
        name = re.sub(r"[^\w .-].*", "", user_agent).strip()[:LONGEST]
        return f"A program, {name}" if name else "A program without a name"
    parts = (part.strip() for part in comment[1].split(";"))
    telling = next((part for part in parts if part.lower() not in TELLS_NOTHING), "")
    kind = _kind(user_agent)
    return f"{kind}, {telling[:LONGEST]}" if telling else kind


def _kind(user_agent: str) -> str:
    if "Tablet" in user_agent:
        return "Tablet"
    return "Phone" if "Mobi" in user_agent else "Laptop or desk"
