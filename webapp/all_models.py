"""Every table, so that the metadata is whole: for migrations and for nothing else."""

from webapp.accounts import models as accounts
from webapp.audience import models as audience
from webapp.core import tables
from webapp.episodes import models as episodes
from webapp.footage import models as footage
from webapp.hired import models as hired
from webapp.inspections import models as inspections
from webapp.linetests import models as linetests
from webapp.money import models as money
from webapp.papers import models as papers
from webapp.photos import models as photos
from webapp.plan import models as plan
from webapp.surfaces import models as surfaces
from webapp.voice import models as voice
from webapp.workdays import models as workdays

__all__ = [
    "accounts",
    "audience",
    "episodes",
    "footage",
    "hired",
    "inspections",
    "linetests",
    "money",
    "papers",
    "photos",
    "plan",
    "surfaces",
    "tables",
    "voice",
    "workdays",
]
