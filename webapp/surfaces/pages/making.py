"""The pages with a form: a surface, a hidden thing, an owed picture, a question, an opening up."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.photos.pages import Picture, picture
from webapp.photos.store import list_photos
from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.surfaces.actions import FIRST
from webapp.surfaces.pages.offsets import lines_at
from webapp.surfaces.pages.states import item_state, surface_state
from webapp.surfaces.pages.superseded import marked, other_states
from webapp.surfaces.rules.back import can_have_back, other_face
from webapp.surfaces.rules.kinds import SERVICE_LETTERS, SERVICES, QuestionKind, SurfaceKind
from webapp.surfaces.rules.places import ACROSS, UP
from webapp.surfaces.rules.quick import QUICK
from webapp.surfaces.store import QuestionFacts, SurfaceFacts
from webapp.values.dates import show_date
from webapp.values.length import show_length
from webapp.values.verdict import Way

KINDS = tuple((kind.value, kind.value.capitalize()) for kind in SurfaceKind)
FACINGS = (("", "none"), ("N", "north"), ("E", "east"), ("S", "south"), ("W", "west"))
SERVICE_CHOICES = tuple(
    (name, f"{name.capitalize()} ({SERVICE_LETTERS[name]})" if SERVICE_LETTERS[name] else name.capitalize())
    for name in SERVICES
)
SET_CHOICES = (("before", "Before insulation"), ("after", "After insulation"), ("general", "In general"))
STRENGTH_CHOICES = (("must", "Must", "stops the closing"), ("wish", "Wish", "nice to have"))
QUESTION_CHOICES = (
    (QuestionKind.DANGER.value, "Danger", "stops until settled"),
    (QuestionKind.CODE.value, "Code", "stops until settled"),
    (QuestionKind.BETTER_WAY.value, "Better way", "does not stop"),
    (QuestionKind.QUESTION.value, "Question", "does not stop"),
)
NOTHING: Mapping[str, str] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class EditPage:
    """A surface's form, new or not."""

    sheet: Sheet
    form: FormState
    new: bool
    action: str
    back: str
    kinds: tuple[tuple[str, str], ...]
    facings: tuple[tuple[str, str], ...]
    places: tuple[tuple[str, str], ...]
    """where on the round a new one may come"""
    other_faces: tuple[tuple[str, str], ...]
    """walls that it could be seen from the other side of; empty where it is none itself"""
    unit: str


def edit_page(session: Session, here: Here, code: str, form: FormState | None = None) -> EditPage:
    """`code` empty: a new surface."""
    if not code:
        sheet, state = here.sheet("W1", "Surfaces", "Add a surface"), FormState.of(kind="wall")
        action, back = f"{here.base}/surfaces", f"{here.base}/surfaces"
        others: tuple[tuple[str, str], ...] = ()
    else:
        surface = store.get_surface(session, here.build.id, code)
        sheet = here.sheet(f"W1-{surface.code}", surface.name)
        listed = store.list_surfaces(session, here.build.id)
        state = surface_state(surface, here.build.unit, other_face(surface, listed))
        others = _other_faces(surface, listed)
        back = f"{here.base}/surfaces/{surface.code}"
        action = f"{back}/edit"
    places = () if code else _places(session, here)
    return EditPage(sheet, form or state, not code, action, back, KINDS, FACINGS, places, others, here.build.unit)


def _places(session: Session, here: Here) -> tuple[tuple[str, str], ...]:
    listed = store.list_surfaces(session, here.build.id)
    if not listed:
        return ()
    return ("", "last"), (FIRST, "first"), *((one.code, f"after {one.name}") for one in listed)


def _other_faces(surface: SurfaceFacts, listed: tuple[SurfaceFacts, ...]) -> tuple[tuple[str, str], ...]:
    if not can_have_back(surface.kind):
        return ()
    walls = (one for one in listed if one.id != surface.id and can_have_back(one.kind))
    return ("", "none on record"), *((one.code, one.name) for one in walls)


def line_choices(session: Session, here: Here, chosen: str) -> tuple[tuple[str, str], ...]:
    """Circuits and lines in use, and the one chosen before."""
    lines = store.list_lines(session, here.build.id)
    in_use = (line for line in lines if line.ended_on is None or line.code == chosen)
    return ("", "none"), *((line.code, f"{line.code} {line.name}") for line in in_use)


@dataclass(frozen=True, slots=True)
class ItemPage:
    """The form of a hidden thing; `pictures` of it, `on`: its circuits, `replaced` when it was moved away, `others` its
    earlier and later places, `move` where it is moved elsewhere."""

    sheet: Sheet
    form: FormState
    new: bool
    surface: str
    action: str
    back: str
    services: tuple[tuple[str, str], ...]
    lines: tuple[tuple[str, str], ...]
    on: tuple[Way, ...]
    sizes: str
    x_label: str
    y_label: str
    y_hint: str
    replaced: str
    others: tuple[tuple[str, str], ...]
    move: str
    read_off: tuple[tuple[str, str], ...]
    """the spots of pictures that it was read off"""
    pictures: tuple[Picture, ...]
    add_picture: str
    papers: str
    """how the sheet of its papers is asked for; empty for a new one"""
    kinds: tuple[str, ...]


def item_page(
    session: Session,
    here: Here,
    code: str,
    item_id: int = 0,
    form: FormState | None = None,
    said: Mapping[str, str] = NOTHING,
) -> ItemPage:
    """`said`: what of a new one is known already."""
    surface = store.get_surface(session, here.build.id, code)
    back, unit = f"{here.base}/surfaces/{surface.code}", here.build.unit
    state, replaced = FormState.of(service="electric", from_corner=surface.origin_corner, **said), ""
    photos: tuple[Picture, ...] = ()
    others: tuple[tuple[str, str], ...] = ()
    on: tuple[Way, ...] = ()
    if item_id:
        item = store.item_on(session, here.build.id, surface, item_id)
        state = item_state(item, unit)
        on = lines_at(here, (item,), store.list_runs(session, here.build.id))[item_id]
        replaced = f"Moved or replaced on {show_date(item.replaced_on)}." if item.replaced_on else ""
        places = store.places_of_item(session, here.build.id, item_id)
        of_it = list_photos(session, (place.photo_id for place in places))
        past = store.list_superseded(session, here.build.id)
        photos = tuple(marked(picture(photo, item.label), past) for photo in of_it)
        others = other_states(session, here, item)
    return ItemPage(
        sheet=here.sheet(f"W1-{surface.code}", surface.name, "Hidden in it"),
        form=form or state,
        new=not item_id,
        surface=surface.name,
        action=f"{back}/items/{item_id}" if item_id else f"{back}/items",
        back=back,
        services=SERVICE_CHOICES,
        lines=line_choices(session, here, state.value("line")),
        on=on,
        sizes=_sizes(surface, unit),
        x_label="Distance from that corner",
        y_label=UP[SurfaceKind(surface.kind)],
        y_hint="" if surface.kind == SurfaceKind.TRENCH else "To its centre.",
        replaced=replaced,
        others=others,
        move=f"{here.base}/changes/new?item={item_id}" if item_id and not replaced else "",
        read_off=tuple(
            (f"Read off a picture: number {one.number}", f"{here.base}/pictures/{one.photo_id}/read#p-{one.number}")
            for one in store.points_of_item(session, item_id)
        ),
        pictures=photos,
        add_picture=f"{here.base}/pictures?surface={surface.code}&item={item_id}" if item_id else "",
        papers=f"item/{item_id}" if item_id else "",
        kinds=tuple(one.kind for one in QUICK),
    )


def _sizes(surface: SurfaceFacts, unit: str) -> str:
    parts = []
    if surface.length_nm is not None:
        parts.append(f"{show_length(surface.length_nm, unit)} long")
    if surface.height_nm is not None:
        measure = {"height": "high", "width": "wide", "depth": "deep"}[ACROSS[SurfaceKind(surface.kind)]]
        parts.append(f"{show_length(surface.height_nm, unit)} {measure}")
    return f"{surface.name}: {', '.join(parts)}." if parts else f"{surface.name}: not measured yet."


@dataclass(frozen=True, slots=True)
class SmallForm:
    """A form of a few fields about one surface: an owed picture, an opening up."""

    sheet: Sheet
    form: FormState
    surface: str
    action: str
    back: str
    sets: tuple[tuple[str, str], ...] = SET_CHOICES
    strengths: tuple[tuple[str, str, str], ...] = STRENGTH_CHOICES


def slot_page(session: Session, here: Here, code: str, form: FormState | None = None) -> SmallForm:
    return _small(session, here, code, "slots", form or FormState.of(picture_set="before", strength="must"))


def _small(session: Session, here: Here, code: str, path: str, form: FormState) -> SmallForm:
    surface = store.get_surface(session, here.build.id, code)
    back = f"{here.base}/surfaces/{surface.code}"
    sheet = here.sheet(f"W1-{surface.code}", surface.name)
    return SmallForm(sheet, form, surface.name, f"{back}/{path}", back)


@dataclass(frozen=True, slots=True)
class AskPage:
    sheet: Sheet
    form: FormState
    kinds: tuple[tuple[str, str, str], ...]
    surfaces: tuple[tuple[str, str], ...]
    action: str
    back: str


def ask_page(session: Session, here: Here, code: str, form: FormState | None = None) -> AskPage:
    surfaces = store.list_surfaces(session, here.build.id)
    chosen = code if any(surface.code == code for surface in surfaces) else ""
    state = FormState.of(surface=chosen, kind="question", who="me", on=here.today.isoformat())
    choices = (("", "no surface"), *((surface.code, surface.name) for surface in surfaces))
    back = f"{here.base}/surfaces/{chosen}" if chosen else f"{here.base}/surfaces"
    sheet = here.sheet("W1", "Surfaces", "Ask a question")
    return AskPage(sheet, form or state, QUESTION_CHOICES, choices, f"{here.base}/questions", back)


@dataclass(frozen=True, slots=True)
class QuestionPage:
    sheet: Sheet
    form: FormState
    words: str
    asked: str
    danger: bool
    stops: bool
    answer: str
    settled: str
    surface: str
    surface_href: str
    href: str
    before: tuple[tuple[str, str], ...]


def question_page(session: Session, here: Here, question_id: int, form: FormState | None = None) -> QuestionPage:
    question = store.get_question(session, here.build.id, question_id)
    surfaces = {surface.id: surface for surface in store.list_surfaces(session, here.build.id)}
    surface = surfaces.get(question.surface_id or 0)
    return QuestionPage(
        sheet=here.sheet("W1", "Surfaces", "Question"),
        form=form or FormState.of(on=here.today.isoformat()),
        words=question.words,
        asked=f"{question.kind.capitalize()}, asked on {show_date(question.asked_on)} by {question.asked_by}.",
        danger=question.kind == QuestionKind.DANGER,
        stops=question.kind in {QuestionKind.DANGER, QuestionKind.CODE},
        answer=question.answer,
        settled=f"Settled on {show_date(question.settled_on)}" if question.settled_on else "",
        surface=surface.name if surface else "the whole build",
        surface_href=f"{here.base}/surfaces/{surface.code}" if surface else f"{here.base}/surfaces",
        href=f"{here.base}/questions/{question_id}",
        before=_before(session, here, question),
    )


def _before(session: Session, here: Here, question: QuestionFacts) -> tuple[tuple[str, str], ...]:
    """Earlier answers, as what was and what became of it."""
    return tuple(
        (change.was, change.became)
        for change in store.list_changes(session, here.build.id)
        if change.what_kind == "question" and change.what_id == question.id
    )
