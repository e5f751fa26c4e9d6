"""The small section beside an inspection: plates inked where it passed, crossed where it did not."""


def mark_for(kind: str, passed: bool) -> str:
    """Letters of the sprite for one surface of that kind, as seen by one inspection."""
    if kind == "trench":
        return "ghi" if passed else "gh"
    if kind == "slab":
        return "klm" if passed else "kl"
    return "acb" if passed else "aob"
