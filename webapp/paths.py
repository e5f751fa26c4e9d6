"""Where templates, static files and migrations lie: inside the wheel, or beside the package in a checkout."""

from pathlib import Path

PACKAGE = Path(__file__).resolve().parent
BUNDLE = PACKAGE / "_bundle"
ROOT = BUNDLE if BUNDLE.is_dir() else PACKAGE.parent

TEMPLATES = ROOT / "templates"
STATIC = ROOT / "static"
MIGRATIONS = ROOT / "migrations"
