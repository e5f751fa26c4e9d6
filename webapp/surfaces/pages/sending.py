"""What is said after pictures were sent, and where one is led."""

from collections.abc import Sequence

from sqlmodel import Session

from webapp.photos.store import get_photo
from webapp.plan.guard import Here
from webapp.surfaces.actions import TakenIn
from webapp.surfaces.pages.taking import in_address
from webapp.values.words import plural


def said_of(taken: TakenIn, where: str, files: Sequence[object]) -> tuple[str, ...]:
    """A sentence for what was kept, one for what was there before, and one for each file that is no picture."""
    if not files:
        return ("Choose one picture or several first.",)
    new = sum(not photo.was_there for photo in taken.kept)
    there = len(taken.kept) - new
    said = []
    if new:
        said.append(f"{plural(new, 'picture')} kept{f' on {where}' if where else ''}.")
    if there:
        was = "was here already and is" if there == 1 else "were here already and are"
        said.append(f"{plural(there, 'picture')} {was} counted once.")
    return (*said, *taken.refused)


def after_sending(
    session: Session, here: Here, taken: TakenIn, code: str, slot_id: int | None, many: bool = False
) -> str:
    """The same surface again, for the next picture; but the picture itself when it fills an owed one undated.

    `many`: where they were shot one after the other, with those that came just now.
    """
    if many:
        return f"{here.base}/pictures/many?surface={code}&came={in_address(one.photo_id for one in taken.kept)}"
    if slot_id is not None and taken.kept:
        photo = get_photo(session, taken.kept[0].photo_id)
        if photo.taken_at is None:
            return f"{here.base}/pictures/{photo.id}#date"
        return f"{here.base}/surfaces/{code}#owed"
    return f"{here.base}/pictures?surface={code}" if code else f"{here.base}/pictures"
