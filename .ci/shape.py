"""Print how the code is shaped, so that a turn can be compared with the one before."""

import ast
import statistics
import sys
from pathlib import Path

ROOT = Path(sys.argv[1] if len(sys.argv) > 1 else ".")


def spread(name: str, sizes: list[int], ceiling: int) -> None:
    if not sizes:
        return
    ordered = sorted(sizes)
    p90 = ordered[min(len(ordered) - 1, int(len(ordered) * 0.9))]
    over = sum(size > ceiling for size in sizes)
    print(f"{name:<20}{len(sizes):>6}{statistics.median(sizes):>8.0f}{p90:>6}{ordered[-1]:>6}{over:>6} > {ceiling}")


def lines(pattern: str) -> dict[Path, int]:
    return {path: len(path.read_text().splitlines()) for path in ROOT.glob(pattern)}


def functions(paths) -> list[tuple[ast.FunctionDef, Path]]:
    wanted = (ast.FunctionDef, ast.AsyncFunctionDef)
    return [
        (node, path) for path in paths for node in ast.walk(ast.parse(path.read_text())) if isinstance(node, wanted)
    ]


def length(node: ast.AST) -> int:
    return node.end_lineno - node.lineno + 1


code, tests = lines("webapp/**/*.py"), lines("tests/**/*.py")
modules = {path: size for path, size in code.items() if size}
print(f"{'':<20}{'n':>6}{'median':>8}{'p90':>6}{'max':>6}{'over':>6}")
spread("python modules", list(modules.values()), 300)
spread("functions", [length(node) for node, _ in functions(modules)], 60)
spread("route functions", [length(n) for n, p in functions(modules) if p.stem.endswith("routes")], 25)
spread("rule functions", [length(n) for n, p in functions(modules) if "rules" in p.parts], 60)
spread("test functions", [length(node) for node, _ in functions(tests)], 40)
spread("templates", list(lines("templates/**/*.html").values()), 150)
spread("stylesheets", list(lines("static/css/**/*.css").values()), 250)
spread("scripts", list(lines("static/js/**/*.js").values()), 120)
print(f"tests / code lines: {sum(tests.values()) / max(1, sum(code.values())):.2f}")
