"""The layout is held by a machine: who may import whom, and rules that need neither web nor database."""

import ast
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PACKAGES = [path for path in (ROOT / "webapp").iterdir() if (path / "__init__.py").exists()]


def test_the_import_contracts_are_kept():
    told = subprocess.run(
        [Path(sys.executable).with_name("lint-imports")], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert told.returncode == 0, told.stdout


def test_rules_load_without_web_or_database():
    names = sorted(
        ".".join(path.relative_to(ROOT).with_suffix("").parts)
        for path in (ROOT / "webapp").rglob("*.py")
        if ("rules" in path.parts or "values" in path.parts) and path.name != "__init__.py"
    )
    assert len(names) > 15, "the rules were not found"
    heavy = ("fastapi", "starlette", "sqlmodel", "sqlalchemy", "pydantic", "PIL", "jinja2")
    code = (
        f"import sys, importlib\nfor name in {names!r}: importlib.import_module(name)\n"
        f"print([name for name in {heavy!r} if name in sys.modules])"
    )
    told = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)
    assert told.stdout.strip() == "[]"


def test_no_import_hides_inside_a_function():
    hidden = [
        f"{path.relative_to(ROOT)}:{inner.lineno}"
        for path in (ROOT / "webapp").rglob("*.py")
        for node in ast.walk(ast.parse(path.read_text()))
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)
        for inner in ast.walk(node)
        if isinstance(inner, ast.Import | ast.ImportFrom)
    ]
    assert hidden == []


def test_every_package_says_what_it_owns_and_holds_no_code_there():
    for package in PACKAGES:
        tree = ast.parse((package / "__init__.py").read_text())
        assert ast.get_docstring(tree), f"{package.name} does not say what it owns"
        assert len(tree.body) == 1, f"{package.name}/__init__.py holds more than its docstring"


def test_only_the_database_commits_and_only_the_clock_asks_the_time():
    commits = [str(p.relative_to(ROOT)) for p in (ROOT / "webapp").rglob("*.py") if ".commit()" in p.read_text()]
    assert commits == ["webapp/core/database.py"]
    asks = [
        str(p.relative_to(ROOT))
        for p in (ROOT / "webapp").rglob("*.py")
        if "datetime.now(" in p.read_text() or "date.today(" in p.read_text()
    ]
    assert asks == ["webapp/core/clock.py"]


def test_no_module_is_named_after_nothing():
    vague = {"utils", "util", "helpers", "helper", "common", "misc", "manager", "service", "services", "crud", "base"}
    found = [str(p.relative_to(ROOT)) for p in (ROOT / "webapp").rglob("*.py") if p.stem in vague]
    assert found == []
