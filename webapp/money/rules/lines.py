"""What a line of spend may say. Whole cents throughout."""

KINDS = ("into the building", "tools bought", "hired", "used up", "fees", "paid labour", "gift")
GIFT = "gift"


def what_is_odd(kind: str, total_cents: int, tax_cents: int, value_cents: int | None) -> dict[str, str]:
    """Name of each part that cannot stand as it is, with the sentence for the builder; empty when all can.

    A gift is nothing paid and a worth. A refund is a negative line, with its tax negative too.
    """
    odd: dict[str, str] = {}
    if kind == GIFT:
        if total_cents:
            odd["total"] = "A gift costs nothing: write 0 as paid and what it is worth beside it."
        if not value_cents or value_cents < 0:
            odd["value"] = "Write what the gift is worth, so that the episode can say so."
        return odd
    if value_cents is not None:
        odd["value"] = "A worth belongs to a gift only. Leave it empty, or choose gift as the kind."
    if total_cents == 0:
        odd["total"] = "Nothing paid is a gift. Write what was paid, or choose gift as the kind."
    elif not 0 <= tax_cents * (1 if total_cents > 0 else -1) <= abs(total_cents):
        odd["tax"] = "The tax is part of what was paid: it has the same sign and is not more."
    return odd
