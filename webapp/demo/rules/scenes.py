"""What each picture, paper and receipt of the scenario shows, as a scene to be painted."""

from collections.abc import Callable

from webapp.demo.rules.content import Content
from webapp.demo.rules.drawing import details, fittings, ground, props, rooms, sheets, slab, yard
from webapp.demo.rules.drawing.camera import Camera
from webapp.demo.rules.drawing.framing import Frame, inches
from webapp.demo.rules.drawing.pen import Pen
from webapp.demo.rules.drawing.shapes import Scene
from webapp.demo.rules.record_rows import Picture, Receipt, Sketch
from webapp.demo.rules.told_rows import Paper

_Thing = Callable[[Pen, Camera, tuple[float, ...]], None]
_THINGS: dict[str, _Thing] = {
    "tape floor": lambda pen, camera, at: props.tape_floor(pen, camera, (at[0], at[1]), at[2]),
    "tape up": lambda pen, camera, at: props.tape_up(pen, camera, (at[0], at[1]), at[2]),
    "tape along": lambda pen, camera, at: props.tape_along(pen, camera, (at[0], at[1]), at[2]),
    "person": lambda pen, camera, at: props.person(pen, camera, (at[0], at[1]), *at[2:]),
    "plank": lambda pen, camera, at: props.plank(pen, camera, (at[0], at[1])),
    "shelves": lambda pen, camera, at: props.shelves(pen, camera, (at[0], at[1])),
    "bike": lambda pen, camera, at: props.bike(pen, camera, (at[0], at[1])),
    "springs": lambda pen, camera, at: props.springs(pen, camera, (at[0], at[1])),
    "hand": lambda pen, camera, at: props.hand(pen, camera, (at[0], at[1]), at[2]),
    "lamp": lambda pen, camera, at: props.lamp(pen, camera, (at[0], at[1])),
    "laser": lambda pen, camera, at: props.laser(pen, camera, (at[0], at[1])),
    "level": lambda pen, camera, at: props.level(pen, camera, (at[0], at[1])),
    "tags": lambda pen, camera, at: props.tag(pen, camera, (at[0], at[1])),
    "figure": lambda pen, camera, at: props.pencil_marks(pen, camera, (at[0], at[1]), f"{at[2]:g}"),
    "rot": lambda pen, camera, at: details.rot(pen, camera, (at[0], at[1])),
    "splice": lambda pen, camera, at: details.splice(pen, camera, (at[0], at[1])),
    "hole": lambda pen, camera, at: details.hole(pen, camera, (at[0], at[1])),
    "door off": lambda pen, camera, at: fittings.door_off(pen, camera, (at[0], at[1])),
    "string": lambda pen, camera, at: fittings.string_line(pen, camera, (at[0], at[1]), at[2]),
    "furring": lambda pen, camera, at: fittings.furring(pen, camera, (at[0], at[1]), at[2]),
    "product card": lambda pen, camera, at: fittings.product_card(pen, camera, (at[0], at[1])),
    "header": lambda pen, camera, at: fittings.sagging_header(pen, camera, (at[0], at[1]), at[2]),
    "behind glass": lambda pen, camera, at: fittings.behind_glass(pen, camera, (at[0], at[1])),
    "key": lambda pen, camera, at: fittings.key(pen, camera, (at[0], at[1])),
    "off cuts": lambda pen, camera, at: fittings.off_cuts(pen, camera, (at[0], at[1])),
}

_DRAWINGS: dict[str, Callable[[Pen], None]] = {
    "permit card": sheets.sleeve,
    "inspection card 1": lambda pen: sheets.card(pen, 1),
    "inspection card 2": lambda pen: sheets.card(pen, 2),
    "inspection card 3": lambda pen: sheets.card(pen, 3),
    "not ready slip": lambda pen: sheets.notice(pen, "NOT READY", 1),
    "notice of two": lambda pen: sheets.notice(pen, "CORRECTIONS", 2),
    "notice of three": lambda pen: sheets.notice(pen, "CORRECTIONS", 3, pencil=True),
    "digger": ground.digger,
    "trench crossing": lambda pen: ground.trench_side(pen, "crossing"),
    "trench house end": lambda pen: ground.trench_side(pen, "house end"),
    "trench garage end": lambda pen: ground.trench_side(pen, "garage end"),
    "trench warning tape": lambda pen: ground.trench_side(pen, "warning"),
    "trench whole": ground.trench_long,
    "rod to wall": lambda pen: ground.rod(pen, other=False),
    "rod to rod": lambda pen: ground.rod(pen, other=True),
    "joint": ground.joint,
    "slab edge": slab.edge,
    "slab strip": slab.strip,
    "pipe level": slab.pipe_level,
    "riser": slab.riser,
    "barrier": slab.barrier,
    "cleanout": slab.cleanout,
    "float marks": slab.float_marks,
    "puddle": slab.puddle,
    "big door": lambda pen: yard.big_door(pen, tracks=True),
    "tracks down": lambda pen: yard.big_door(pen, tracks=False),
    "street": yard.street,
    "loft": yard.loft,
    "gable sleeve": lambda pen: yard.gable(pen, cut=True),
    "gable mark": lambda pen: yard.gable(pen, cut=False),
    "outdoor unit": yard.unit,
    "sheathing nails": yard.nails,
    "carton": yard.carton,
    "gauge": details.gauge,
    "hangers short": lambda pen: details.hangers(pen, full=False),
    "hangers full": lambda pen: details.hangers(pen, full=True),
    "staple on edge": lambda pen: details.staple(pen, flat=False),
    "staple flat": lambda pen: details.staple(pen, flat=True),
    "feeder": details.feeder,
}


def scene_for(picture: Picture, content: Content) -> Scene:
    """The scene of a picture; a picture that is the same file as another has the other's scene."""
    sketches = {sketch.picture: sketch for sketch in content.sketches}
    source = picture.same_as or picture.id
    sketch = sketches[source]
    pen = Pen(source)
    if sketch.drawing == "surface":
        _surface(pen, frame_of(picture.surface, frozenset(sketch.look), content), sketch)
    else:
        _DRAWINGS[sketch.drawing](pen)
        if sketch.beside:
            _put_beside(pen, yard.ROOM, sketch.beside)
    return pen.scene()


def frame_of(surface_id: str, look: frozenset[str], content: Content) -> Frame:
    """A surface with its openings, items and runs gathered."""
    return Frame(
        surface=next(row for row in content.surfaces if row.id == surface_id),
        openings=tuple(row for row in content.openings if row.surface == surface_id),
        items=tuple(row for row in content.items if row.surface == surface_id),
        runs=tuple(row for row in content.runs if row.surface == surface_id),
        services={row.id: row for row in content.services},
        look=look,
    )


def _surface(pen: Pen, frame: Frame, sketch: Sketch) -> None:
    if sketch.wide_nm is None or sketch.x_nm is None or sketch.y_nm is None:
        camera = rooms.whole(frame)
    else:
        camera = rooms.close(inches(sketch.x_nm), inches(sketch.y_nm), inches(sketch.wide_nm))
    rooms.draw_room(pen, camera, frame)
    _put_beside(pen, camera, sketch.beside)


def _put_beside(pen: Pen, camera: Camera, beside: tuple[str, ...]) -> None:
    for thing in beside:
        name, _, numbers = thing.partition("@")
        _THINGS[name](pen, camera, tuple(float(number) for number in numbers.split(",")))


def receipt_scene(receipt: Receipt) -> Scene:
    """A till slip with scribbled lines and the total in figures."""
    pen = Pen(receipt.id)
    sign = "-" if receipt.total_cents < 0 else ""
    whole, cents = divmod(abs(receipt.total_cents), 100)
    sheets.till_slip(pen, receipt.day.isoformat(), receipt.lines, f"{sign}{whole:,}.{cents:02d}")
    return pen.scene()


def _card(pen: Pen, paper: Paper) -> None:
    """Signed as far as the last line its kind names, as in `inspection card, lines 7 and 8`."""
    last = int(paper.kind.split()[-1])
    sheets.card(pen, last, struck=last - 1 if "struck through" in paper.note else -1)


def _notice(pen: Pen, paper: Paper) -> None:
    sheets.notice(pen, "CORRECTIONS", 2 if "two items" in paper.note else 3, pencil="pencil" in paper.note)


_HEADINGS: list[tuple[str, Callable[[Pen, Paper], None]]] = [
    ("stamped plans", lambda pen, _: sheets.plan_sheet(pen)),
    ("permit card", lambda pen, _: sheets.sleeve(pen)),
    ("inspection card", _card),
    ("not ready slip", lambda pen, _: sheets.notice(pen, "NOT READY", 1)),
    ("correction notice", _notice),
    ("maker's sheet", lambda pen, paper: sheets.makers_sheet(pen, paper.kind.partition(", ")[2].upper())),
    ("product card", lambda pen, _: sheets.makers_sheet(pen, "BATTS R-15")),
    ("circuit list", lambda pen, _: sheets.makers_sheet(pen, "CIRCUIT LIST")),
]


def paper_scene(paper: Paper) -> Scene:
    """A paper of the build: its kind as a heading, figures where it has some, and nothing private to read."""
    pen = Pen(paper.id)
    for beginning, draw in _HEADINGS:
        if paper.kind.startswith(beginning):
            draw(pen, paper)
            break
    else:
        sheets.letter(pen, paper.kind.split(",")[0].split(" with ")[0].upper()[:22])
    return pen.scene()
