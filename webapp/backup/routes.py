"""The page of copies: make one, take one along."""

from fastapi import APIRouter, Request
from starlette.responses import FileResponse, Response

from webapp.accounts.guard import OutsideBuilds
from webapp.backup import actions, files, pages
from webapp.backup.rules.keeping import read_copy_name, show_size
from webapp.core.clock import now
from webapp.core.dependencies import Config
from webapp.core.rendering import go_to, render
from webapp.values.errors import NotFound
from webapp.values.words import plural, sentence_list

router = APIRouter()


@router.get("/copies")
def copies(request: Request, here: OutsideBuilds, config: Config) -> Response:
    found = files.list_copies(config.backups)
    page = pages.copies_page(here.sheet("H2", "Copies"), found, config.keep_copies, str(config.backups), now())
    return render(request, "backup/copies.html", page)


@router.post("/copies")
def make_copy(config: Config) -> Response:
    made = actions.make_copy(config)
    also = f" {sentence_list(made.notes)}" if made.notes else ""
    return go_to("/copies", say=f"The copy is made: {plural(made.pictures, 'picture')}, {show_size(made.size)}.{also}")


@router.get("/copies/{name}")
def take_copy(config: Config, name: str) -> Response:
    """Sent piece by piece from the file, so that a large copy needs no memory."""
    if read_copy_name(name) is None or not (config.backups / name).is_file():
        raise NotFound("There is no such copy. It may have made room for newer ones.")
    return FileResponse(
        config.backups / name, media_type="application/zip", filename=name, headers={"Cache-Control": "no-store"}
    )
