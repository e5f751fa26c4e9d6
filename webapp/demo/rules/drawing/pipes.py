"""Ends and fittings of pipes, ducts and conduits, as they show in a wall."""

from webapp.demo.rules.drawing.camera import Camera
from webapp.demo.rules.drawing.framing import inches
from webapp.demo.rules.drawing.pen import Pen
from webapp.demo.rules.drawing.shapes import AIR, DARK, DRAIN, ELECTRIC, INK, PIPE, THIN, WATER, WHITE
from webapp.demo.rules.place_rows import Item


def stub(pen: Pen, camera: Camera, item: Item) -> None:
    """The open end of a pipe or sleeve, ringed in its colour."""
    colour = {"DR": DRAIN, "VT": DRAIN, "CD": DRAIN, "DX": AIR, "LS": AIR}.get(item.service, WATER)
    wide = {"DR": 1.1, "LS": 1.7, "DX": 3.4, "CD": 0.7}.get(item.service, 0.6)
    centre = camera.at(inches(item.x_nm), inches(item.y_nm), 0.5)
    pen.disc(centre, wide * camera.scale, PIPE)
    pen.disc(centre, wide * camera.scale * 0.72, DARK, colour, max(3.0, camera.scale * 0.16))


def valve(pen: Pen, camera: Camera, item: Item) -> None:
    """A shut-off with its handle square to the pipe and its drain cock."""
    x, y = inches(item.x_nm), inches(item.y_nm)
    body = "#d8b95e"
    pen.panel(camera.front(x - 1.6, y - 0.8, x + 1.6, y + 0.8, -1), body)
    pen.panel(camera.front(x - 0.35, y + 0.8, x + 0.35, y + 1.9, -0.8), body)
    pen.panel(camera.front(x - 0.4, y + 1.6, x + 3.2, y + 2.2, -0.6), ELECTRIC)
    pen.disc(camera.at(x + 1.0, y - 1.2, -0.8), 0.4 * camera.scale, body)


def tee(pen: Pen, camera: Camera, item: Item) -> None:
    """A tee or a cleanout on the stack."""
    x, y = inches(item.x_nm), inches(item.y_nm)
    pen.panel(camera.front(x - 1.5, y - 2.4, x + 1.5, y + 2.4, -0.6), PIPE)
    for ring in (-2.4, 1.8):
        pen.panel(camera.front(x - 1.8, y + ring, x + 1.8, y + ring + 0.6, -0.6), PIPE, INK, THIN)
    if item.kind == "tee":
        pen.disc(camera.at(x, y + 0.5, -0.2), 1.1 * camera.scale, PIPE, DRAIN, max(3, camera.scale * 0.2))
    else:
        pen.disc(camera.at(x, y, -0.2), 1.1 * camera.scale, WHITE, DRAIN, max(3, camera.scale * 0.2))
        pen.panel(camera.front(x - 0.4, y - 0.4, x + 0.4, y + 0.4, -0.2), PIPE, INK, THIN)


def conduit_entry(pen: Pen, camera: Camera, item: Item) -> None:
    """A conduit standing up out of the floor."""
    x, y = inches(item.x_nm), inches(item.y_nm)
    wide = 0.85 if "1/4" in item.material else 0.65
    pen.panel(camera.front(x - wide, 0, x + wide, y, -0.5), "#b8bdbe")
    pen.panel(camera.front(x - wide * 1.2, y - 1.4, x + wide * 1.2, y, -0.4), "#b8bdbe")


def vent(pen: Pen, camera: Camera, item: Item) -> None:
    """The vent where it passes the cut plate."""
    x, y = inches(item.x_nm), inches(item.y_nm)
    pen.panel(camera.front(x - 1.2, y - 8, x + 1.2, y + 2, 0.05), PIPE)
    pen.line(camera.at(x, y - 8, 0.05), camera.at(x, y + 2, 0.05), ink=DRAIN, width=0.5 * camera.scale)
