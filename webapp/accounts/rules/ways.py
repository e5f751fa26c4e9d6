"""Where to go after signing in: only to a page of our own."""

import re

HOME = "/"


def local_path(text: str) -> str:
    """`text` when it is a plain path of this server, else the first page.

    A browser reads `//name` and `/\\name` as another server and drops tabs and line ends, so none of these pass.
    """
    fits = text.startswith("/") and not text.startswith("//") and len(text) <= 2000
    return text if fits and not re.search(r"[\\\x00-\x20\x7f]", text) else HOME
