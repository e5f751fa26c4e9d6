"""Every table, so that the metadata is whole: for migrations and for nothing else."""

from webapp.accounts import models as accounts
from webapp.audience import models as audience
from webapp.core import tables
from webapp.episodes import models as episodes
from webapp.footage import models as footage
from webapp.inspections import models as inspections
from webapp.money import models as money
from webapp.photos import models as photos
from webapp.plan import models as plan
from webapp.surfaces import models as surfaces
from webapp.workdays import models as workdays

__all__ = [
    "accounts",
    "audience",
    "episodes",
    "footage",
    "inspections",
    "money",
    "photos",
    "plan",
    "surfaces",
    "tables",
    "workdays",
]
