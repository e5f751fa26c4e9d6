"""What the scenario's pictures show, held against their captions."""

from datetime import date

import pytest

from webapp.demo.files.packaged import read_packaged
from webapp.demo.rules.content import Content, read_content
from webapp.demo.rules.drawing.lettering import strokes
from webapp.demo.rules.drawing.shapes import HEIGHT, WIDTH, Area, Disc, Line
from webapp.demo.rules.scenes import paper_scene, receipt_scene, scene_for

SUBJECTS = {
    "tape": {"tape"},
    "batts": {"batts"}, "retarder": {"retarder"},
    "sleeve": {"sleeve", "water sleeve", "card"},
    "hatch": {"hatch"}, "gauge": {"gauge"}, "notice": {"notice"}, "slip": {"notice"}, "card": {"card"},
    "tracks": {"big door"}, "springs": {"springs"}, "bike": {"bike"}, "digger": {"digger"}, "rod": {"ground rod"},
    "conduits": {"conduit"}, "dowels": {"dowels"}, "bucket": {"bucket"}, "hangers": {"hangers"},
    "joists": {"string line"},
    "window": {"window"}, "door": {"door", "big door", "opening", "door off its hinge", "house"},
    "blocking": {"blocking"}, "receptacle": {"receptacle"}, "switch": {"switch"},
    "plate": {"nail plate", "shield plate", "strap", "plate hole"},
    "furring": {"furring"}, "lamp": {"lamp"}, "laser": {"laser"}, "helper": {"person"}, "clock": {"clock"},
    "fan": {"fan", "nail plate"}, "unit": {"outdoor unit"},
    "pipe": {"drain", "condensate"}, "panel": {"sub-panel", "plate hole", "card"},
}  # fmt: skip


@pytest.fixture(scope="module")
def content() -> Content:
    return read_content(read_packaged(), today=date(2031, 3, 8), say_day=str)


@pytest.fixture(scope="module")
def scenes(content):
    return {picture.id: scene_for(picture, content) for picture in content.pictures}


def test_every_picture_has_one_sketch_and_a_sketch_belongs_to_a_picture(content):
    sketched = [sketch.picture for sketch in content.sketches]
    assert len(set(sketched)) == len(sketched)
    assert set(sketched) == {picture.id for picture in content.pictures if not picture.same_as}


def test_every_picture_shows_what_its_caption_names(content, scenes):
    words_checked = 0
    for picture in content.pictures:
        words = set(picture.caption.lower().replace(",", " ").replace(":", " ").split())
        for word in words & SUBJECTS.keys():
            if "no tape" in picture.caption and word == "tape":
                continue
            shown = scenes[picture.id].subject
            assert shown & SUBJECTS[word] or _marked_by(word, picture.caption), (picture.id, word, shown)
            words_checked += 1
    assert words_checked > 80


def _marked_by(word: str, caption: str) -> bool:
    """Captions that use a word for something else: tape round conductors, a house number, the big door by name."""
    other = {"feed marked with tape", "garage end, bend with tape", "under the east window", "under the west window"}
    other |= {"by the east window", "right of the door", "east by the door", "after the panel visit", "to the window"}
    other |= {"over the door", "corner to window", "from the window", "window to corner", "product card", "the bench"}
    return any(phrase in caption.lower() for phrase in other) and word in ("tape", "window", "door", "card", "panel")


def test_a_picture_of_an_item_shows_a_thing_of_its_kind(content, scenes):
    items = {item.id: item for item in content.items}
    checked = 0
    for picture in content.pictures:
        if (
            picture.surface in ("N", "E", "S", "W", "C")
            and picture.item
            and scenes[picture.id].subject & {"N", "E", "S", "W"}
        ):
            kind = items[picture.item].kind
            assert kind in scenes[picture.id].subject or picture.stage != "before insulation", (picture.id, kind)
            checked += 1
    assert checked > 40


def test_a_picture_after_insulation_hides_the_cables(content, scenes):
    for picture in content.pictures:
        if picture.stage == "after insulation":
            shown = scenes[picture.id].subject
            assert shown & {"batts", "retarder"}
            assert not shown & {"circuit", "low voltage"}, picture.id


def test_the_same_file_twice_is_the_same_scene_and_two_boxes_are_not(scenes):
    assert scenes["P060"] == scenes["P054"]
    assert scenes["P047"] != scenes["P048"]


def test_the_missing_jack_shows_as_fewer_pieces_than_the_pair(scenes):
    assert len(scenes["P111"].shapes) < len(scenes["P112"].shapes)


def test_a_scene_is_drawn_the_same_each_time(content, scenes):
    for picture in content.pictures[::9]:
        assert scene_for(picture, content) == scenes[picture.id]


def test_shapes_lie_on_the_sheet_and_are_not_too_many(scenes):
    for name, scene in scenes.items():
        assert 20 < len(scene.shapes) < 4000, name
        seen = 0
        for shape in scene.shapes:
            points = (shape.centre,) if isinstance(shape, Disc) else shape.points
            assert isinstance(shape, Line | Area | Disc)
            seen += any(0 <= x <= WIDTH and 0 <= y <= HEIGHT for x, y in points)
        assert seen > len(scene.shapes) / 4, name


def test_a_receipt_shows_its_total_in_figures(content):
    refund = next(receipt for receipt in content.receipts if receipt.id == "RC57")
    assert "-24.53" in receipt_scene(refund).subject
    assert "1,569.28" in receipt_scene(next(r for r in content.receipts if r.id == "RC25")).subject
    lettered = {shape.points for shape in receipt_scene(refund).shapes if isinstance(shape, Line)}
    assert len(lettered) > 40


def test_every_paper_is_drawn_as_its_kind(content):
    kinds = {paper.id: paper_scene(paper).subject for paper in content.papers}
    assert kinds["PA01"] == {"plans"}
    assert kinds["PA19"] == kinds["PA20"] == {"notice"}
    assert kinds["PA13"] == {"card"}
    assert kinds["PA22"] == {"maker's sheet"}
    assert kinds["PA14"] == {"letter"}


def test_lettering_knows_every_sign_the_pictures_use():
    for sign in "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789.,:-/'\"":
        assert strokes(sign, (100, 100), 60), sign
        for stroke in strokes(sign, (100, 100), 60):
            assert all(60 <= x <= 140 and 69 <= y <= 141 for x, y in stroke), sign
