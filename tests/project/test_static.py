"""Files sent to the browser: vendored ones are what they say, every one is used, nothing is written inline."""

import functools
import gzip
import hashlib
import json
import re
import struct
from pathlib import Path

import pytest
from jinja2 import nodes

from webapp.core.assets import Assets
from webapp.core.rendering import make_environment
from webapp.paths import STATIC, TEMPLATES

TEMPLATE_NAMES = sorted(path.relative_to(TEMPLATES).as_posix() for path in TEMPLATES.rglob("*.*"))
STYLES = sorted(STATIC.glob("css/**/*.css"))
SCRIPTS = sorted(path for path in STATIC.glob("js/**/*.js"))
VENDORED_ROW = re.compile(r"^\| (?P<file>[^ |]+\.\w+) \|.*\b(?P<sum>[0-9a-f]{64}) \|$", re.MULTILINE)
VENDORED = {row["file"]: row["sum"] for row in VENDORED_ROW.finditer((STATIC / "vendor/README.md").read_text())}
WORKER = "js/worker.js"
"""named by no template: it is answered at the top of the site"""
PAPERS = {"vendor/README.md", "vendor/LICENSE-htmx.txt", "fonts/OFL.txt"}


@functools.cache
def environment():
    return make_environment(TEMPLATES, Assets(STATIC))


def source(name: str) -> str:
    return (TEMPLATES / name).read_text()


def named_by(template: str) -> set[str]:
    """Every constant given to `static(...)`, found in the syntax tree, so that a comment or a text does not count."""
    return {
        call.args[0].value
        for call in environment().parse(source(template)).find_all(nodes.Call)
        if isinstance(call.node, nodes.Name) and call.node.name == "static" and isinstance(call.args[0], nodes.Const)
    }


@functools.cache
def named_in_templates() -> frozenset[str]:
    return frozenset(name for template in TEMPLATE_NAMES for name in named_by(template))


def named_in(path: Path) -> set[str]:
    """Files that a style sheet, script or manifest names, as paths below `static/`."""
    text = path.read_text().replace('"/static/', '"./../')
    found = re.findall(r"url\(([^)]+)\)|(?:from|import)\s*\(?\s*\"(\.[^\"]+)\"|\"src\": \"([^\"]+)\"", text)
    targets = {next(filter(None, groups)).strip("'\"") for groups in found}
    return {(path.parent / target).resolve().relative_to(STATIC.resolve()).as_posix() for target in targets}


def used() -> set[str]:
    reached, waiting = set(), {WORKER, *named_in_templates()}
    while waiting:
        name = waiting.pop()
        reached.add(name)
        if Path(name).suffix in {".css", ".js", ".webmanifest"} and not name.startswith("vendor/"):
            waiting |= named_in(STATIC / name) - reached
    return reached


def test_every_vendored_file_is_the_one_its_papers_describe():
    on_disk = {path for folder in ("vendor", "fonts") for path in (STATIC / folder).iterdir()}
    described = {(STATIC / "vendor" / name).resolve() for name in VENDORED}
    assert {path.resolve() for path in on_disk if path.suffix in {".js", ".woff2"}} == described
    for name, expected in VENDORED.items():
        assert hashlib.sha256((STATIC / "vendor" / name).read_bytes()).hexdigest() == expected, name


def test_every_licence_lies_beside_what_it_licenses():
    assert "Zero-Clause BSD" in (STATIC / "vendor/LICENSE-htmx.txt").read_text()
    licence = (STATIC / "fonts/OFL.txt").read_text()
    assert "SIL OPEN FONT LICENSE Version 1.1" in licence and "Copyright" in licence


def test_every_file_a_template_names_is_there():
    missing = {name for name in used() if not (STATIC / name).is_file()}
    assert not missing


def test_no_file_lies_there_unused():
    files = {path.relative_to(STATIC).as_posix() for path in STATIC.rglob("*") if path.is_file()}
    assert files - used() - PAPERS == set()


def test_every_sign_a_template_asks_for_is_in_the_sprite():
    drawn = set(re.findall(r'<symbol id="([^"]+)"', (STATIC / "sprite.svg").read_text()))
    asked = set()
    for name in TEMPLATE_NAMES:
        asked |= set(re.findall(r"""(?:ui\.)?(?:icon|_sign)\(\s*["']([\w-]+)["']""", source(name)))
        asked |= set(re.findall(r"sprite\.svg[\"']\) ?}}#([\w-]+)", source(name)))
    assert "danger" in asked
    assert asked <= drawn


@pytest.mark.parametrize("name", TEMPLATE_NAMES)
def test_every_template_compiles(name):
    environment().get_template(name)


@pytest.mark.parametrize("name", TEMPLATE_NAMES)
def test_nothing_is_written_inline(name):
    text = re.sub(r"{#.*?#}", "", source(name), flags=re.DOTALL)
    assert not re.search(r"<style\b", text)
    assert not re.search(r"\sstyle\s*=", text)
    assert not re.search(r"<[^>]*\son[a-z]+\s*=", text)
    assert not re.search(r"\bhx-on\b|javascript:|\bjs:", text)
    for tag in re.findall(r"<script\b[^>]*>", text):
        assert "src=" in tag


@pytest.mark.parametrize(
    ("paths", "most"),
    [([TEMPLATES / name for name in TEMPLATE_NAMES], 150), (STYLES, 250), (SCRIPTS, 120)],
    ids=["templates", "style sheets", "scripts"],
)
def test_no_file_outgrows_one_sitting(paths, most):
    too_long = {path.name: size for path in paths if (size := len(path.read_text().splitlines())) > most}
    assert paths and not too_long


def test_colours_stand_in_one_place():
    for path in STYLES:
        raw = re.findall(r"#[0-9a-fA-F]{3,8}\b", re.sub(r"/\*.*?\*/", "", path.read_text(), flags=re.DOTALL))
        assert path.name == "tokens.css" or set(raw) <= {"#000", "#fff"}, path.name


def packed(names: set[str]) -> int:
    """Bytes as sent; fonts are packed already."""
    return sum(
        len(raw if name.endswith(".woff2") else gzip.compress(raw, 9))
        for name in names
        for raw in [(STATIC / name).read_bytes()]
    )


def test_what_every_first_visit_fetches_leaves_room_for_the_page():
    """60 KB in all (a promise of this project); the page itself may be 8 KB of it. What comes after the page has been
    read (counts, the outbox, the worker) is weighed below."""
    named = {name: named_by(name) for name in TEMPLATE_NAMES}
    shell = {file for name, files in named.items() if name.startswith("_") for file in files}
    shell = {file for file in shell if not file.endswith((".webmanifest", ".png"))}
    fonts = {f"fonts/{path.name}" for path in (STATIC / "fonts").glob("*.woff2")}
    dearest = max(
        packed({file for file in files - shell if file.endswith((".css", ".js"))}) for files in named.values()
    )
    assert {"css/tokens.css", "sprite.svg", "js/start.js"} <= shell
    assert packed(shell | fonts) + dearest < 52 * 1024


def test_all_scripts_together_are_a_few_seconds_of_a_slow_line():
    """They come after the page is read, and once: at 400 kbit/s, 50 KB is a second. htmx is part of the first visit."""
    assert packed({f"js/{path.name}" for path in SCRIPTS}) < 48 * 1024


def test_the_pictures_of_the_manifest_have_the_size_it_says():
    manifest = json.loads((STATIC / "manifest.webmanifest").read_text())
    pictures = [icon for icon in manifest["icons"] if icon["type"] == "image/png"]
    assert {icon.get("purpose", "any") for icon in pictures} == {"any", "maskable"}
    for icon in pictures:
        # Width and height are the first two numbers of the IHDR chunk (PNG specification, third edition, 11.2.1).
        width, height = struct.unpack(">II", (STATIC / icon["src"]).read_bytes()[16:24])
        assert f"{width}x{height}" == icon["sizes"]
