"""The worker, at the top of the site because it may only keep what lies below it; and the sheet it shows for what it
does not keep. Neither says anything private.
"""

import json

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.core.assets import Assets
from webapp.core.rendering import look, render
from webapp.core.sheets import Sheet
from webapp.offline import pages

router = APIRouter()
WORKER = "js/worker.js"
LEFT_OUT = (".txt", ".md")


@router.get("/sw.js")
def worker(request: Request) -> Response:
    """The worker with the files of this version written at its top: any changed file makes it a new worker."""
    assets: Assets = request.app.state.assets
    files = [assets.url(name) for name in assets.names() if name != WORKER and not name.endswith(LEFT_OUT)]
    head = f"const VERSION = {json.dumps(assets.version)};\nconst FILES = {json.dumps(files)};\n"
    return Response(
        head.encode() + assets.get(WORKER).body, media_type="text/javascript", headers={"Cache-Control": "no-cache"}
    )


@router.get("/not-kept")
def not_kept(request: Request) -> Response:
    sheet = Sheet("0", "Not kept", "Not kept on this phone", look=look(request), here="/")
    return render(request, "offline/not_kept.html", pages.NotKeptPage(sheet))
