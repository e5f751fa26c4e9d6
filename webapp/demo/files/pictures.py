"""The demo's picture files as they would have come from the builder's camera."""

from datetime import datetime

from webapp.demo.files.painter import CameraTags, paint
from webapp.demo.rules.content import Content
from webapp.demo.rules.record_rows import Picture
from webapp.demo.rules.scenes import scene_for

_TURNS = (1, 6, 3)
_CARRIES_PLACE = 9  # The first pictures were taken before the builder switched the camera's place marks off.


def picture_file(picture: Picture, content: Content) -> bytes:
    """The JPEG of a picture; one that is the same file as another has the other's bytes."""
    source = next((other for other in content.pictures if other.id == picture.same_as), picture)
    return paint(scene_for(source, content), camera_tags(source))


def camera_tags(picture: Picture) -> CameraTags | None:
    """What the camera wrote into the file; None where its time was lost or set by hand."""
    if picture.taken_from != "camera" or picture.taken_day is None or picture.taken_time is None:
        return None
    number = int(picture.id.removeprefix("P"))
    early = number <= _CARRIES_PLACE
    return CameraTags(
        taken=datetime.combine(picture.taken_day, picture.taken_time),
        orientation=_TURNS[(number - 1) % len(_TURNS)] if early else 1,
        with_place=early,
    )
