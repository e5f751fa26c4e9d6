"""The nodes of what a surface itself owes: questions, shots, pictures, counts, and its closing."""

from collections.abc import Iterator
from datetime import date

from webapp.readiness.rules import keys
from webapp.readiness.rules.network import Node, WaitsFor
from webapp.readiness.rules.wording import inside
from webapp.readiness.store.record import Record
from webapp.surfaces.rules.slots import set_words
from webapp.surfaces.store import SlotFacts
from webapp.values.dates import show_short_day
from webapp.values.own_words import own
from webapp.values.words import join_words

SHOWN = 2


def question_nodes(record: Record, base: str, today: date) -> Iterator[Node]:
    for rank, question in enumerate(record.questions):
        kind = f"{question.kind[:1].upper()}{question.kind[1:]}"
        yield Node(
            key=keys.question(question.id),
            kind="question",
            title=question.words,
            settled=question.settled_on is not None,
            settled_on=question.settled_on,
            waits_for=WaitsFor.ANSWER,
            detail=f"{kind}. Asked by {question.asked_by}, {show_short_day(question.asked_on, today)}.",
            href=f"{base}/questions/{question.id}",
            surface_ids=(question.surface_id,) if question.surface_id else (),
            rank=rank,
        )


def shot_nodes(record: Record, base: str) -> Iterator[Node]:
    for rank, shot in enumerate(record.shots):
        let_go = record.lifted.get(keys.shot(shot.id))
        before = f"Before “{shot.task}”." if shot.task else "For the episode."
        yield Node(
            key=keys.shot(shot.id),
            kind="shot",
            title=f"Shot: {shot.what[:1].lower()}{shot.what[1:]}",
            settled=shot.state != "owed" or let_go is not None,
            settled_on=shot.filmed_on or shot.skipped_on or (let_go.on_day if let_go else None),
            detail=f"Once only. {before}" if shot.once else before,
            href=f"{base}/footage/{shot.id}",
            surface_ids=record.shot_surfaces.get(shot.id, ()),
            skippable=True,
            rank=rank,
        )


def slot_nodes(record: Record, base: str) -> Iterator[Node]:
    for slot in record.slots:
        let_go = record.lifted.get(keys.slot(slot.id))
        surface = record.surface[slot.surface_id]
        yield Node(
            key=keys.slot(slot.id),
            kind="picture",
            title=f"Picture {slot.number}: {slot.what[:1].lower()}{slot.what[1:]}",
            settled=slot.settled or let_go is not None,
            settled_on=slot.settled_on or (let_go.on_day if let_go else None),
            detail=_slot_detail(slot, surface.kind),
            href=_slot_href(slot, surface.code, base),
            surface_ids=(slot.surface_id,),
            skippable=True,
            rank=slot.position,
        )


def _slot_href(slot: SlotFacts, code: str, base: str) -> str:
    """Where to take it; where it is there already, where its date is set."""
    if slot.photo_id is not None:
        return f"{base}/pictures/{slot.photo_id}#date"
    return f"{base}/surfaces/{code}/shoot?slot={slot.id}"


def _slot_detail(slot: SlotFacts, kind: str) -> str:
    when = f"{set_words(kind, slot.picture_set).capitalize()}." if slot.picture_set != "general" else ""
    if slot.photo_id is not None:
        return f"{slot.state[:1].upper()}{slot.state[1:]}. {when}".strip()
    return when or "Not taken yet."


def count_nodes(record: Record, base: str) -> Iterator[Node]:
    for surface in record.surfaces:
        if surface.needs_count:
            let_go = record.lifted.get(keys.count(surface.id))
            yield Node(
                key=keys.count(surface.id),
                kind="count",
                title="Count the boxes",
                settled=surface.boxes_before is not None or let_go is not None,
                settled_on=let_go.on_day if let_go else None,
                detail=f"So that each is found again after the {own('board')}.",
                href=f"{base}/surfaces/{surface.code}/boxes",
                surface_ids=(surface.id,),
                skippable=True,
            )


def offset_nodes(record: Record, base: str) -> Iterator[Node]:
    """What is hidden and was not measured cannot be found again."""
    for surface in record.surfaces:
        key, missing = keys.offsets(surface.id), record.unmeasured.get(surface.id, ())
        let_go = record.lifted.get(key)
        if missing or let_go:
            yield Node(
                key=key,
                kind="offsets",
                title=f"Measure {_first_named(missing)}",
                settled=not missing or let_go is not None,
                settled_on=let_go.on_day if let_go else None,
                detail="From the named corner and the floor, so that it is found again.",
                href=f"{base}/surfaces/{surface.code}#hidden",
                surface_ids=(surface.id,),
                skippable=True,
            )


def _first_named(labels: tuple[str, ...]) -> str:
    """The first two by name, the rest counted."""
    if len(labels) > SHOWN + 1:
        labels = (*labels[:SHOWN], f"{len(labels) - SHOWN} more things")
    return join_words([inside(label) for label in labels]) or "what is hidden"


def basis_nodes(record: Record, base: str) -> Iterator[Node]:
    """A surface that no inspection looks at: nothing may pass as "nothing owed" only because nothing was written."""
    whole = any(one.holds_cover and not one.surface_ids for one in record.inspections)
    named = {place for one in record.inspections if one.holds_cover for place in one.surface_ids}
    for surface in record.surfaces:
        let_go = record.lifted.get(keys.basis(surface.id))
        yield Node(
            key=keys.basis(surface.id),
            kind="basis",
            title=f"Which {own('inspection')} has to see it?",
            settled=whole or surface.id in named or let_go is not None,
            settled_on=let_go.on_day if let_go else None,
            detail="None is written down for it. Ask your authority.",
            href=f"{base}/inspections",
            surface_ids=(surface.id,),
            skippable=True,
        )


def cover_nodes(record: Record, base: str) -> Iterator[Node]:
    for rank, surface in enumerate(record.surfaces):
        closers = [record.task[task].title for task in record.closers.get(surface.id, ()) if task in record.task]
        yield Node(
            key=keys.cover(surface.id),
            kind="cover",
            title=surface.name,
            settled=surface.covered_on is not None,
            settled_on=surface.covered_on,
            detail=join_words(closers) or surface.closed_by,
            href=f"{base}/surfaces/{surface.code}/before-cover",
            surface_ids=(surface.id,),
            rank=rank,
        )
