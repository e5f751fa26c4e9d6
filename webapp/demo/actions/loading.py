"""The invented build from its first day to its last, into an empty record."""

from datetime import date, timedelta

from sqlmodel import Session

from webapp.accounts.actions import ensure_demo_owner
from webapp.core.database import Database
from webapp.core.settings import Settings
from webapp.demo import store
from webapp.demo.actions import hiring, papering, picturing, placing, planning, saying, telling, visiting, working
from webapp.demo.actions.book import MORNING, Book, moment
from webapp.demo.files.packaged import read_packaged
from webapp.demo.files.painting import painting
from webapp.demo.rules.content import Content, read_content
from webapp.demo.rules.days import BEGUN, day_at
from webapp.demo.rules.telling import all_shown
from webapp.plan.models import Build
from webapp.plan.rules.kinds import LengthUnit
from webapp.plan.store import BuildFacts
from webapp.values.dates import show_date

SLUG = "bindery"


def held_day(database: Database) -> date:
    """The Saturday on which the demo in this record stands still, so that what it has ahead stays ahead.

    Raises NotFound when no demo was loaded.
    """
    with database.reading() as session:
        return store.begun_on(session, SLUG) - timedelta(days=BEGUN)


def load(database: Database, settings: Settings, today: date) -> str:
    """Write the year that ends on the latest Saturday on or before `today`; gives the build's name in addresses.

    The record must be empty. All of it is written at once, or nothing; the files of pictures may stay behind.
    """
    content = read_content(read_packaged(), today, show_date)
    names = picturing.file_names(content)
    with painting(content.saturday, settings.photos, names, all_shown()) as painted, database.writing() as session:
        ensure_demo_owner(session)
        book = Book(session, content, _write_build(session, content))
        planning.write_plan(book)
        planning.write_booked(book)
        placing.write_places(book)
        placing.write_questions(book)
        visiting.write_permits(book)
        picturing.write_pictures(book, painted)
        picturing.write_marks(book)
        placing.write_slots(book)
        visiting.write_visits(book)
        saying.write_advice(book)
        saying.place_corrections(book)
        working.write_spend(book)
        visiting.write_fees(book)
        hiring.write_hired(book)
        hiring.write_tests(book)
        papering.write_papers(book, settings)
        working.write_shots(book)
        working.write_days(book)
        saying.write_aloud(book, settings)
        planning.write_needs(book)
        placing.write_closings(book)
        planning.keep_breaches(book)
        telling.write_episodes(book, settings.photos)
    return SLUG


def _write_build(session: Session, content: Content) -> BuildFacts:
    facts = {row.key: row.value for row in content.build}
    build = Build(
        slug=SLUG,
        name=facts["name"],
        what=facts["what"],
        length_unit=LengthUnit.INCHES.value,
        currency=facts["currency"],
        made_at=moment(day_at(content.saturday, BEGUN), MORNING),
    )
    session.add(build)
    session.flush()
    return BuildFacts(build.row_id, build.slug, build.name, build.what, build.length_unit, build.currency)
