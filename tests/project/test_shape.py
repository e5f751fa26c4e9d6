"""Ceilings that keep the house small: a module, function, template or stylesheet that outgrows one is cut in two."""

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
FILES = [
    ("webapp/**/*.py", 300),
    ("templates/**/*.html", 150),
    ("static/css/**/*.css", 250),
    ("static/js/**/*.js", 120),
    ("tests/conftest.py", 150),
]
FUNCTIONS = [("webapp/**/*.py", 60), ("webapp/**/*routes.py", 25), ("tests/**/*.py", 40)]


@pytest.mark.parametrize(("pattern", "ceiling"), FILES)
def test_no_file_outgrows_its_ceiling(pattern, ceiling):
    sizes = {path.relative_to(ROOT): len(path.read_text().splitlines()) for path in ROOT.glob(pattern)}
    assert sizes, f"nothing matches {pattern}"
    assert {str(path): size for path, size in sizes.items() if size > ceiling} == {}


@pytest.mark.parametrize(("pattern", "ceiling"), FUNCTIONS)
def test_no_function_outgrows_its_ceiling(pattern, ceiling):
    long = [
        f"{path.relative_to(ROOT)}:{node.lineno} {node.name}"
        for path in ROOT.glob(pattern)
        for node in ast.walk(ast.parse(path.read_text()))
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef) and node.end_lineno - node.lineno + 1 > ceiling
    ]
    assert long == []
