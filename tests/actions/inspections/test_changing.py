"""A change written down: all it touches at once, and nothing of before is lost."""

from datetime import date

import pytest
from sqlmodel import select

from tests import builders
from tests.conftest import SATURDAY
from webapp.footage.models import Shot
from webapp.inspections import actions, store
from webapp.inspections.models import InspectionChange, PlanChangeHistory
from webapp.inspections.rules.changing import Answer, Change, Move, Touched
from webapp.inspections.rules.kinds import ChangeAnswer
from webapp.plan.models import Need, Task
from webapp.plan.store import get_build
from webapp.readiness.store import look_over
from webapp.surfaces import actions as surfaces
from webapp.surfaces.models import Item, Lifted, PictureSlot
from webapp.surfaces.store import list_superseded

CHANGE = Change("Sink moved from W to N", "better light", "the authority", SATURDAY)


class Ground:
    """W with its sink, plumbing passed on it; N beside it."""

    def __init__(self, session):
        self.session, self.build = session, builders.a_build(session)
        self.w = builders.a_surface(session, self.build, "W", "West wall", position=1)
        self.n = builders.a_surface(session, self.build, "N", "North wall", position=2)
        permit = builders.a_permit(session, self.build, "PLB", name="Plumbing permit")
        self.plumbing = builders.an_inspection(session, permit, "Rough plumbing", (self.w,))
        self.passed = builders.a_result(session, builders.a_visit(session, self.plumbing), self.w)
        self.sink = builders.an_item(session, self.w, "Sink drain", service="drain")
        self.phase = builders.a_phase(session, self.build)
        self.work = builders.a_task(session, self.phase, "Rough in the sink", kind="plumbing", state="done")
        self.shot = builders.a_shot(session, self.build, state="filmed", files="A001.MP4", where_it_lies="card 3")

    def change(self, **more) -> int:
        both = (self.w.row_id, self.n.row_id)
        reopened = tuple((self.plumbing.row_id, place) for place in both)
        touched = Touched(both, reopened, **more)
        build = get_build(self.session, self.build.slug)
        move = Move(self.sink.row_id, self.n.row_id, "NE", 60 * builders.INCH, 20 * builders.INCH)
        return actions.record_change(self.session, build, CHANGE, touched, move)

    def key(self, surface) -> str:
        return f"inspection:{self.plumbing.row_id}@{surface.row_id}"

    def settled(self, key: str) -> bool:
        return look_over(self.session, get_build(self.session, self.build.slug), SATURDAY).network.node(key).settled


@pytest.fixture
def ground(session):
    return Ground(session)


def test_a_pass_of_before_counts_no_more_and_is_still_there(session, ground):
    assert ground.settled(ground.key(ground.w))
    change = ground.change()
    assert not ground.settled(ground.key(ground.w)) and not ground.settled(ground.key(ground.n))
    kept = store.list_results_of(session, ground.plumbing.row_id)[0]
    assert (kept.kind, kept.state, kept.reopened) == ("passed", "current", ((ground.w.row_id, change),))


def test_the_inspection_looks_at_the_new_surface_from_then_on_and_says_why(session, ground):
    ground.change()
    looks = store.get_inspection_by_id(session, ground.build.row_id, ground.plumbing.row_id).surface_ids
    assert looks == (ground.w.row_id, ground.n.row_id)
    said = session.exec(select(InspectionChange)).one()
    assert (said.was, said.became, said.why) == ("W", "W, N", "Sink moved from W to N")


def test_the_authority_s_word_of_before_ends_and_may_be_given_anew(session, ground):
    ground.passed.kind = "failed"
    word = (ground.w.row_id, ground.key(ground.w), "Rough plumbing, W", "authority", "the inspector", "leave it")
    surfaces.let_go(session, *word, SATURDAY)
    assert ground.settled(ground.key(ground.w))
    ground.change()
    assert not ground.settled(ground.key(ground.w))
    assert session.exec(select(Lifted)).one().ended_on == SATURDAY
    surfaces.let_go(session, *word, SATURDAY)
    assert ground.settled(ground.key(ground.w))


def test_the_work_is_put_down_anew_and_the_visits_wait_for_it(session, ground):
    ground.change(task_ids=(ground.work.row_id,))
    again = session.exec(select(Task).where(Task.title == "Again: Rough in the sink")).one()
    assert (again.state, again.phase_id, ground.work.state) == ("not started", ground.phase.row_id, "done")
    needs = session.exec(select(Need)).all()
    assert {(one.what_kind, one.what_surface_id, one.needs_id) for one in needs} == {
        ("inspection", ground.w.row_id, again.row_id),
        ("inspection", ground.n.row_id, again.row_id),
    }


def test_a_new_take_is_owed_and_the_old_one_keeps_where_it_lies(session, ground):
    ground.change(shot_ids=(ground.shot.row_id,))
    old, new = session.exec(select(Shot).order_by(Shot.id)).all()
    assert (old.state, old.files, old.where_it_lies) == ("filmed", "A001.MP4", "card 3")
    assert (new.state, new.what) == ("owed", f"Again: {old.what}")


def test_pictures_of_the_old_place_are_history_from_that_day(session, ground):
    photo = builders.a_photo(session, taken_at="2026-05-10T10:00:00")
    later = builders.a_photo(session, taken_at="2026-05-20T10:00:00")
    for one in (photo, later):
        surfaces.place_picture(session, ground.build.row_id, one.row_id, ground.w.row_id, ground.sink.row_id)
    slot = builders.a_slot(session, ground.w, item_id=ground.sink.row_id)
    whole = builders.a_slot(session, ground.w, 2, photo_id=photo.row_id)
    ground.change(slot_ids=(whole.row_id,))
    session.flush()
    slots = session.exec(select(PictureSlot).order_by(PictureSlot.id)).all()
    assert [one.ended_on for one in slots] == [SATURDAY, SATURDAY, None, None]
    assert (slot.item_id, slots[2].surface_id) == (ground.sink.row_id, ground.n.row_id), "owed where it is now"
    assert (slots[3].surface_id, slots[3].what, slots[3].photo_id) == (ground.w.row_id, whole.what, None)
    assert list_superseded(session, ground.build.row_id) == {photo.row_id: SATURDAY}


def test_the_thing_keeps_what_it_is_and_knows_both_places(session, ground):
    ground.change()
    old, new = session.exec(select(Item).order_by(Item.id)).all()
    assert (old.replaced_on, old.replaced_by_id) == (SATURDAY, new.row_id)
    assert (new.label, new.service, new.surface_id, new.from_corner) == ("Sink drain", "drain", ground.n.row_id, "NE")


def test_an_answer_put_right_keeps_what_was_said_before(session, ground):
    change = ground.change()
    build_id = ground.build.row_id
    for answer, day in ((ChangeAnswer.REFUSED, 16), (ChangeAnswer.AGREED, 18)):
        actions.answer_change(session, build_id, change, Answer(answer, "the office", date(2026, 5, day), "said"))
    session.flush()
    facts = store.get_plan_change(session, build_id, change)
    assert facts.settled and facts.answered_on == date(2026, 5, 18)
    said = [(one.was, one.became) for one in session.exec(select(PlanChangeHistory)).all() if one.field == "answer"]
    assert said == [("no answer yet", "refused"), ("refused", "agreed")]
    asked = Answer(ChangeAnswer.NONE, "the office", date(2026, 5, 20), "")
    actions.answer_change(session, build_id, change, asked)
    again = store.get_plan_change(session, build_id, change)
    assert not again.settled and (again.asked_on, again.answered_on) == (date(2026, 5, 20), None)
