"""One surface: what it is, what is hidden in it, what is owed before it is closed, what was let go."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.sheets import Sheet
from webapp.photos.pages import Picture, picture
from webapp.photos.store import list_photos
from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.surfaces.pages.changes import Change, changes_of
from webapp.surfaces.pages.closings import ClosingLine, closing_lines
from webapp.surfaces.pages.drawing import Elevation, elevation, key_of
from webapp.surfaces.pages.drawn import Circuit, DrawnLine, circuits, opening_lines
from webapp.surfaces.pages.ground import Ground, ground_of
from webapp.surfaces.pages.offsets import FROM_PICTURE, lines_at
from webapp.surfaces.pages.owed import Owed, owed_part
from webapp.surfaces.pages.pins import PhotoMap, photo_map
from webapp.surfaces.pages.superseded import marked
from webapp.surfaces.rules.back import other_face
from webapp.surfaces.rules.corners import ends_of, is_same
from webapp.surfaces.rules.counting import table_words
from webapp.surfaces.rules.kinds import QuestionKind, SurfaceKind
from webapp.surfaces.rules.places import ACROSS, UP
from webapp.surfaces.rules.tagging import tags_of
from webapp.surfaces.store import ItemFacts, LiftedFacts, QuestionFacts, SurfaceFacts
from webapp.values.dates import show_day
from webapp.values.length import show_area, show_length
from webapp.values.verdict import Way
from webapp.values.words import plural

LATEST = 6
"""pictures shown on the surface's own sheet; all are on W4"""


@dataclass(frozen=True, slots=True)
class ItemRow:
    """A hidden thing. `tag` names it in the drawing; empty for what has no offsets yet; `lines`: its circuits."""

    tag: str
    label: str
    detail: str
    letter: str
    service: str
    lines: tuple[Way, ...]
    x: str
    y: str
    href: str
    replaced: str


@dataclass(frozen=True, slots=True)
class Line:
    """A line of a list: bold words, second line, where it leads."""

    title: str
    detail: str
    href: str = ""


@dataclass(frozen=True, slots=True)
class SurfacePage:
    sheet: Sheet
    name: str
    href: str
    standing_href: str
    covered: bool
    number: int
    """its place on the round, as on the key plan"""
    facts: tuple[tuple[str, str], ...]
    note: str
    across: str
    up: str
    corner: str
    elevation: Elevation | None
    ground: Ground | None
    items: tuple[ItemRow, ...]
    openings: tuple[DrawnLine, ...]
    runs: tuple[Circuit, ...]
    owed: Owed
    questions: tuple[Line, ...]
    settled: tuple[Line, ...]
    pictures: tuple[Picture, ...]
    picture_count: int
    photo_map: PhotoMap | None
    boxes: str
    lifted: tuple[Line, ...]
    covers: tuple[ClosingLine, ...]
    changes: tuple[Change, ...]
    before_cover: str
    what_stops: str
    all_pictures: str
    shoot_many: str


def surface_page(session: Session, here: Here, code: str) -> SurfacePage:
    build_id, surface = here.build.id, store.get_surface(session, here.build.id, code)
    href = f"{here.base}/surfaces/{surface.code}"
    items = tuple(item for item in store.list_items(session, build_id) if item.surface_id == surface.id)
    asked = tuple(question for question in store.list_questions(session, build_id) if question.surface_id == surface.id)
    placed = list(dict.fromkeys(p.photo_id for p in store.places_on_surface(session, build_id, surface.id)))
    kind = SurfaceKind(surface.kind)
    tags = tags_of(items)
    runs = store.list_runs(session, build_id)
    on = lines_at(here, items, runs)
    return SurfacePage(
        sheet=here.sheet(f"W1-{surface.code}", surface.name, key=key_of(surface)),
        name=surface.name,
        href=href,
        standing_href=f"{href}/standing",
        covered=surface.covered_on is not None,
        number=[one.id for one in store.list_surfaces(session, build_id)].index(surface.id) + 1,
        facts=_facts(surface, other_face(surface, store.list_surfaces(session, build_id)), here.build.unit),
        note=surface.note,
        across=f"From {surface.origin_corner}" if surface.origin_corner else "From the corner",
        up=UP[kind],
        corner=surface.origin_corner,
        elevation=elevation(session, here, surface),
        ground=ground_of(session, here, surface),
        items=tuple(_item(item, surface, here, tags.get(item.id, ""), on[item.id]) for item in items),
        openings=opening_lines(here, surface, store.list_openings(session, build_id)),
        runs=circuits(here, surface, runs),
        owed=owed_part(session, here, surface, items),
        questions=tuple(_question(question, here) for question in asked if question.settled_on is None),
        settled=tuple(_question(question, here) for question in asked if question.settled_on is not None),
        pictures=tuple(
            marked(picture(photo, surface.name), store.list_superseded(session, build_id))
            for photo in list_photos(session, placed[:LATEST])
        ),
        picture_count=len(placed),
        photo_map=photo_map(session, here, surface, elevation(session, here, surface)),
        boxes=_boxes(surface, items),
        lifted=_lifted(session, here, surface),
        covers=closing_lines(session, here, surface),
        changes=_changes(session, here, surface, {item.id for item in items}),
        before_cover=f"{href}/before-cover",
        what_stops=f"{here.base}/what-stops?surface={surface.code}",
        all_pictures=f"{here.base}/pictures?surface={surface.code}",
        shoot_many=f"{here.base}/pictures/many?surface={surface.code}",
    )


def _facts(surface: SurfaceFacts, other: SurfaceFacts | None, unit: str) -> tuple[tuple[str, str], ...]:
    """What the surface is, as label and value; what is not known is left out."""

    def shown(nm: int | None) -> str:
        return show_length(nm, unit) if nm is not None else ""

    area = ""
    if surface.length_nm is not None and surface.height_nm is not None:
        area = show_area(surface.length_nm, surface.height_nm, unit)
    listed = (
        ("Kind", surface.kind),
        ("Length", shown(surface.length_nm)),
        (ACROSS[SurfaceKind(surface.kind)].capitalize(), shown(surface.height_nm)),
        ("Area", area),
        ("Measured from", surface.origin_corner),
        ("Its other end", ends_of(surface)[1]),
        ("Framing", surface.framing),
        ("Spacing", shown(surface.spacing_nm)),
        ("First stud at", shown(surface.first_stud_nm)),
        ("Carries weight", "yes" if surface.bearing else ""),
        ("Closed by", surface.closed_by),
        ("Other face", other.name if other else ""),
    )
    return tuple((label, value) for label, value in listed if value)


def _item(item: ItemFacts, surface: SurfaceFacts, here: Here, tag: str, lines: tuple[Way, ...]) -> ItemRow:
    unit, corner = here.build.unit, item.from_corner
    from_picture = FROM_PICTURE if item.from_picture else ""
    x = show_length(item.typed_nm, unit) if item.typed_nm is not None else "not measured"
    if corner and not is_same(corner, surface.origin_corner) and item.typed_nm is not None:
        x = f"{x} from {corner}"
    return ItemRow(
        tag=tag,
        label=item.label,
        detail=", ".join(part for part in (item.kind, item.service, item.note, from_picture) if part),
        letter=item.letter,
        service=item.service,
        lines=lines,
        x=x,
        y=show_length(item.y_nm, unit) if item.y_nm is not None else "not measured",
        href=f"{here.base}/surfaces/{surface.code}/items/{item.id}",
        replaced=f"Moved or replaced {show_day(item.replaced_on, here.today)}" if item.replaced_on else "",
    )


def _question(question: QuestionFacts, here: Here) -> Line:
    words = question.kind if question.kind != QuestionKind.QUESTION else "question"
    detail = f"{words.capitalize()}, asked {show_day(question.asked_on, here.today)} by {question.asked_by}."
    if question.settled_on is not None:
        detail = f"{detail} Settled {show_day(question.settled_on, here.today)}: {question.answer}"
    return Line(question.words, detail, f"{here.base}/questions/{question.id}")


def _boxes(surface: SurfaceFacts, items: tuple[ItemFacts, ...]) -> str:
    """The counts of boxes, and how many the table holds; empty where no count is owed and none was made."""
    counts = (surface.boxes_before, surface.boxes_after)
    if not surface.needs_count and counts == (None, None):
        return ""
    before, after = (str(count) if count is not None else "not counted" for count in counts)
    listed = sum(item.is_box and item.replaced_on is None for item in items)
    differs = table_words(surface.boxes_before, listed)
    return f"Open: {before}. After closing: {after}. In the table: {plural(listed, 'box')}. {differs}".strip()


def _lifted(session: Session, here: Here, surface: SurfaceFacts) -> tuple[Line, ...]:
    build_id = here.build.id
    return tuple(
        Line(lifted.what, _lifted_detail(lifted, here))
        for lifted in (*store.list_lifted(session, build_id), *store.list_lifted_before(session, build_id))
        if lifted.surface_id == surface.id
    )


def _lifted_detail(lifted: LiftedFacts, here: Here) -> str:
    said = f"{show_day(lifted.on_day, here.today)}, {lifted.who}: {lifted.why}"
    if lifted.ended_on is None:
        return said
    return f"{said.removesuffix('.')}. Counted until it was opened up, {show_day(lifted.ended_on, here.today)}."


def _changes(session: Session, here: Here, surface: SurfaceFacts, item_ids: set[int]) -> tuple[Change, ...]:
    """What was put right on this surface, its closings and its hidden things, the latest first."""
    covers = {cover.id for cover in store.list_covers(session, here.build.id) if cover.surface_id == surface.id}
    openings = {one.id for one in store.openings_of(session, here.build.id, surface.id)}
    runs = {one.id for one in store.list_runs(session, here.build.id) if one.surface_id == surface.id}
    own = {"surface": {surface.id}, "item": item_ids, "cover": covers, "opening": openings, "run": runs}
    own["tie"] = {one.id for one in store.ties_of(session, here.build.id, surface.id)}
    return changes_of(session, here, own)
