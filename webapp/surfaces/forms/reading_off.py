"""What is tapped on a picture, and typed of each spot."""

from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from webapp.core.forms import BadForm, FieldError, FormState, Reader, Submitted
from webapp.plan.guard import Here
from webapp.surfaces.actions import ItemDraft, PointDraft
from webapp.surfaces.forms.behind import TAPPED
from webapp.surfaces.forms.places import check_place
from webapp.surfaces.rules.places import outside
from webapp.surfaces.rules.quick import BY_KIND, made_label
from webapp.surfaces.rules.scaled import MILLION, Spot
from webapp.surfaces.store import ItemFacts, OpeningFacts, SurfaceFacts
from webapp.values.length import parse_length

MOST = 40
"""spots of one sending"""
WHAT = "What is it? A word will do, or tick “Leave it out”."
BOTH = "A known spot needs both: how far from the corner, and how high."


def row_count_of(text: str) -> int:
    """How many spots a form says it has."""
    return min(int(text), MOST) if text.isdecimal() and len(text) < len("9999") else 0


def tapped_again(sent: Submitted, width: int, height: int) -> FormState | None:
    """The form with one spot more, where the picture was pressed without scripts; None where it was not."""
    for name, shown in TAPPED.items():
        x, y = sent.text(f"{name}.x"), sent.text(f"{name}.y")
        if x.isdecimal() and y.isdecimal() and len(x) < 6 and len(y) < 6 and row_count_of(sent.text("rows")) < MOST:
            across, down = int(x) * MILLION // shown, int(y) * MILLION * width // (shown * height)
            number = row_count_of(sent.text("rows")) + 1
            at = f"{min(across, MILLION)} {min(down, MILLION)}"
            return FormState(sent.typed() | {"rows": (str(number),), f"at_{number}": (at,)})
    return None


def spot_of(text: str) -> Spot | None:
    parts = text.split()
    if len(parts) != len(("across", "down")) or not all(part.isdecimal() and len(part) < 8 for part in parts):
        return None
    across, down = map(int, parts)
    return Spot(across, down) if across <= MILLION and down <= MILLION else None


def read_points(
    sent: Submitted,
    here: Here,
    surface: SurfaceFacts,
    openings: Sequence[OpeningFacts],
    others: Sequence[ItemFacts],
) -> tuple[PointDraft, ...]:
    """Every spot that is not left out. Raises BadForm, each sentence beside the field of its row."""
    drafts: list[PointDraft] = []
    errors: dict[str, FieldError] = {}
    labels = [one.kind for one in others]
    for number in range(1, row_count_of(sent.text("rows")) + 1):
        spot = spot_of(sent.text(f"at_{number}"))
        if spot is None or sent.text(f"out_{number}"):
            continue
        row = Submitted([(name, sent.text(f"{name}_{number}")) for name in ("what", "kind", "x", "y", "known")])
        reader = Reader(row)
        draft = _point(reader, here, surface, openings, others, spot, labels)
        errors |= {f"{name}_{number}": error for name, error in reader.errors.items()}
        drafts.append(draft)
        labels += [draft.item.kind] if draft.item else []
    if not drafts and not errors:
        errors["rows"] = FieldError("Tap a spot on the picture first.")
    if errors:
        raise BadForm(FormState(sent.typed(), errors))
    return tuple(drafts)


def _point(
    reader: Reader,
    here: Here,
    surface: SurfaceFacts,
    openings: Sequence[OpeningFacts],
    others: Sequence[ItemFacts],
    spot: Spot,
    kinds: list[str],
) -> PointDraft:
    length = partial(parse_length, unit=here.build.unit)
    kind, known = reader.one_of("kind", tuple(BY_KIND)), reader.flag("known")
    what = reader.text("what", "" if kind or known else WHAT, most=120) or (made_label(kind, kinds) if kind else "")
    x, y = reader.parsed("x", length), reader.parsed("y", length)
    if known:
        if not (reader.sent.text("x") and reader.sent.text("y")):
            reader.wrong("x", BOTH)
        wrong = outside(surface.kind, surface.length_nm, surface.height_nm, x, y, here.build.unit)
        for field, sentence in wrong.items():
            reader.wrong(field, sentence)
        return PointDraft(spot, what or "Known spot", x, y, known=True, item=None)
    item = item_of(surface, kind, what, x, y) if x is not None or y is not None else None
    if item is not None:
        check_place(reader, here, surface, openings, others, item)
    return PointDraft(spot, what, x, y, known=False, item=item)


def item_of(surface: SurfaceFacts, kind: str, what: str, x: int | None, y: int | None) -> ItemDraft:
    """The thing of a spot: its kind brings service and box along."""
    quick = BY_KIND.get(kind)
    return ItemDraft(
        label=what,
        kind=kind or "other",
        service=quick.services[0] if quick else "other",
        line_id=None,
        from_corner=surface.origin_corner,
        x_nm=x,
        y_nm=y,
        width_nm=None,
        note="",
        is_box=quick is not None and quick.is_box,
    )


def read_settled(
    sent: Submitted,
    here: Here,
    surface: SurfaceFacts,
    openings: Sequence[OpeningFacts],
    others: Sequence[ItemFacts],
    what: str,
    proposal: tuple[int, int] | None,
) -> ItemDraft:
    """What a spot is after all: where the tape says, or, with `picture`, where the picture says. Raises BadForm."""
    reader, length = Reader(sent), partial(parse_length, unit=here.build.unit)
    kind = reader.one_of("kind", tuple(BY_KIND))
    if sent.text("do") == "picture" and proposal is not None:
        draft = replace(item_of(surface, kind, what, *proposal), from_picture=True)
    else:
        x = reader.parsed("x", length, "How far from the corner, by the tape.")
        draft = item_of(surface, kind, what, x, reader.parsed("y", length, "And how high."))
    check_place(reader, here, surface, openings, others, draft)
    reader.done()
    return draft
