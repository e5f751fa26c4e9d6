"""How things of the graph are called inside a sentence, and what lies down the line from one of them."""

from collections.abc import Sequence

from webapp.readiness.rules.network import Network, Node, Root

LATER = 2
"""steps that one line names after what is freed"""


def inside(title: str) -> str:
    """A title in the middle of a sentence: its capital goes, unless the whole word is in capitals."""
    first, _, _ = title.partition(" ")
    return title if first.isupper() and len(first) > 1 else f"{title[:1].lower()}{title[1:]}"


def ready_words(root: Root) -> str:
    """What to call a root cause: what is to be done, where that differs from the thing."""
    return root.node.ready_says or root.node.title


def step_words(node: Node) -> str:
    """A later thing, as a step in a line: "ask for the visit, rough plumbing, W", "cover east wall"."""
    if node.kind == "cover":
        return f"cover {inside(node.title)}"
    return ", ".join(inside(part) for part in (node.ready_says or node.title).rstrip(".").split(": "))


def down_the_line(network: Network, root: Root, way: Sequence[str]) -> tuple[str, str]:
    """A label and what comes after a root: "Frees" what it alone stops, else "Then" the next steps down `way`.

    `way` are keys from the root down to what was asked about, both included. Of several freed things the one on the
    way is named and the others are counted.
    """
    if not root.frees:
        return ("Then", _steps(network, way[1 : LATER + 1])) if len(way) > 1 else ("", "")
    named = way[1] if len(way) > 1 and way[1] in root.frees else root.frees[0]
    rest = len(root.frees) - 1
    others = f" (and {rest} more)" if rest else ""
    later = _steps(network, way[2 : LATER + 2]) if named in way else ""
    return "Frees", f"{step_words(network.node(named))}{others}{', then ' if later else ''}{later}"


def _steps(network: Network, keys: Sequence[str]) -> str:
    return ", then ".join(step_words(network.node(key)) for key in keys)
