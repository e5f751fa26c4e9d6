"""The day's form: one thumb, every part optional, each mistake beside its field, nothing typed ever lost."""

import pytest
from sqlmodel import select

from tests import builders, pictures
from tests.pages.workdays.conftest import LOG
from tests.reading import field_errors, links, soup, words
from webapp.core.tables import Sent
from webapp.money.models import Spend
from webapp.photos.models import Photo
from webapp.plan.models import Task
from webapp.surfaces.models import PicturePlace
from webapp.workdays.models import Workday, WorkEntry


def count(database, table) -> int:
    with database.reading() as session:
        return len(session.exec(select(table)).all())


def only(database, table):
    with database.reading() as session:
        return session.exec(select(table)).one()


def test_hours_alone_are_a_day(client, database):
    answer = client.post(LOG, data={"own": "2½"})
    assert answer.status_code == 303
    day = only(database, Workday)
    assert (day.own_min, str(day.day)) == (150, "2026-05-16")
    assert "Saturday 16 May 2026: 2½ h my own." in words(client.get(answer.headers["location"]))


def test_a_form_with_nothing_in_it_gets_one_kind_sentence(client, database):
    answer = client.post(LOG, data={"day": "2026-05-16", "surface": ""})
    assert answer.status_code == 422
    assert field_errors(answer) == {
        "done": "Nothing is filled in yet. Hours, a few words or one picture: any of them is enough."
    }
    assert count(database, Workday) == 0


def test_tasks_under_way_stand_before_those_that_can_start_and_held_ones_are_in_the_list(client, database, build):
    with database.writing() as session:
        phase = builders.a_phase(session, build)
        free = builders.a_task(session, phase, "Free", 1)
        builders.a_task(session, phase, "Under way", 2, state="under way")
        held = builders.a_task(session, phase, "Held", 3)
        builders.a_need(session, held, free)
    page = soup(client.get(LOG))
    assert [tag.find("span").contents[0] for tag in page.select("label:has([name=worked])")] == ["Under way", "Free"]
    assert [tag.get_text() for tag in page.select("#f-more_task option")] == ["None", "Held"]


def test_a_long_list_of_other_tasks_ends_and_says_how_many_it_leaves_out(client, database, build):
    with database.writing() as session:
        phase = builders.a_phase(session, build)
        first = builders.a_task(session, phase, "Free", 1)
        held = [builders.a_task(session, phase, f"Held {number}", number + 2) for number in range(203)]
        for task in held:
            builders.a_need(session, task, first)
        last = str(held[-1].row_id)
    answer = client.get(LOG)
    listed = [tag.get_text() for tag in soup(answer).select("#f-more_task option")]
    assert listed == ["None", *(f"Held {number}" for number in range(200))]
    assert "Not listed here: 3 later tasks." in words(answer)
    back = soup(client.post(LOG, data={"more_task": last, "more_hours": "many"}))
    assert [tag.get_text() for tag in back.select("#f-more_task option[selected]")] == ["Held 202"]


def test_a_late_day_is_welcome_and_a_day_ahead_is_questioned(client, database):
    assert client.post(LOG, data={"own": "1", "day": "other", "other_day": "9 May"}).status_code == 303
    assert str(only(database, Workday).day) == "2026-05-09"
    refused = client.post(LOG, data={"own": "1", "day": "other", "other_day": "2026-05-17", "day_sure": "yes"})
    assert refused.status_code == 422
    assert "17 May 2026 is after today (16 May 2026)." in field_errors(refused)["other_day"]
    assert count(database, Workday) == 1


def test_a_day_that_does_not_exist_is_never_taken(client, database):
    answer = client.post(LOG, data={"own": "1", "day": "other", "other_day": "2026-04-31"})
    assert "April has 30 days." in field_errors(answer)["other_day"]
    assert soup(answer).select_one("[name=other_day]")["value"] == "2026-04-31"
    assert [button["value"] for button in soup(answer).select("button[name=other_day]")] == ["2026-04-30", "2026-05-01"]


def test_a_day_before_the_first_permit_is_questioned_and_taken_when_it_is_right(client, database, build):
    """A date a year off: the tool asks, and does not refuse."""
    with database.writing() as session:
        builders.a_permit(session, build)
    sent = {"own": "1", "day": "other", "other_day": "2025-05-09"}
    asked = client.post(LOG, data=sent)
    assert "9 May 2025 is before the permit was issued" in field_errors(asked)["other_day"]
    assert "9 May 2026" in field_errors(asked)["other_day"]
    assert soup(asked).select_one("[name=day_sure]") is not None
    assert client.post(LOG, data=sent | {"day_sure": "yes"}).status_code == 303


@pytest.mark.parametrize(
    ("field", "typed", "told"),
    [
        ("own", "25", "more than 24 h"),
        ("own", "two", "Write hours such as 2.5"),
        ("helper_unpaid", "30", "at least 2 people"),
        ("helper_pay", "-5", "Write what was paid to them"),
        ("spend1_total", "12.999", "two decimals"),
        ("spend1_total", "0", "Nothing paid is a gift"),
    ],
)
def test_a_slip_is_told_beside_its_field_and_all_that_was_typed_stays(client, database, field, typed, told):
    sent = {"done": "Plates, all of them", "weather": "rain", "spend1_what": "Screws", "spend1_total": "9.95"}
    answer = client.post(LOG, data=sent | {field: typed})
    assert (answer.status_code, list(field_errors(answer))) == (422, [field])
    assert told in field_errors(answer)[field]
    page = soup(answer)
    assert page.select_one(f"[name={field}]")["value"] == typed
    assert "Plates, all of them" in page.select_one("[name=done]").get_text()
    assert page.select_one("[name=weather][checked]")["value"] == "rain"
    assert (count(database, Workday), count(database, Spend)) == (0, 0)


def test_two_notes_of_one_day_cannot_hold_more_than_a_day(client, database):
    client.post(LOG, data={"own": "14"})
    refused = client.post(LOG, data={"own": "11"})
    assert "14 h are noted for 16 May 2026 already" in field_errors(refused)["own"]
    assert client.post(LOG, data={"own": "10"}).status_code == 303


def test_tasks_that_take_more_than_the_day_are_questioned(client, database, east):
    sent = {"own": "2", "worked": str(east.wiring), f"split_{east.wiring}": "3"}
    answer = client.post(LOG, data=sent)
    assert "The tasks add up to 3 h; the day has 2 h of your own." in words(answer)
    assert answer.status_code == 422


def test_hours_split_over_tasks_are_the_day_when_nothing_else_is_said(client, database, east):
    client.post(LOG, data={"worked": str(east.wiring), f"split_{east.wiring}": "3"})
    assert only(database, Workday).own_min == 180
    assert only(database, WorkEntry).minutes == 180


def test_a_lost_day_asks_what_stopped_it(client, database):
    refused = client.post(LOG, data={"lost": "yes"})
    assert "Say what stopped you" in field_errors(refused)["stopped_by"]
    client.post(LOG, data={"lost": "yes", "stopped": "Rain", "stopped_by": "all day"})
    assert only(database, Workday).stopped_by == "Rain: all day"


def test_a_task_of_another_build_is_not_taken(client, database, east):
    with database.writing() as session:
        other = builders.a_task(session, builders.a_phase(session, builders.a_build(session, "Shed"))).row_id
    assert client.post(LOG, data={"own": "1", "worked": str(other)}).status_code == 422
    assert count(database, WorkEntry) == 0


def test_a_helper_day_of_three_kinds_shows_each_and_costs_only_what_was_paid(client, database):
    """I 7 h, two friends 4.5 h each unpaid, one paid 80 for 4.5 h."""
    sent = {"own": "7", "helper_unpaid": "9", "helper_paid": "4.5", "helper_pay": "80"}
    answer = client.post(LOG, data=sent)
    assert "7 h my own, 9 h unpaid help, 4½ h paid help" in words(client.get(answer.headers["location"]))
    line = only(database, Spend)
    assert (line.total_cents, line.kind) == (8_000, "paid labour")
    page = words(client.get(f"/builds/bindery/workdays/{only(database, Workday).row_id}"))
    assert "Paying people can bring duties" in page and "20½" not in page


def test_a_refused_finish_keeps_the_day_and_leads_to_every_reason(client, database, east):
    sent = {"own": "3", "done": "Board is up", "finished": str(east.board)}
    files = {"pictures": ("a.jpg", pictures.a_jpeg(), "image/jpeg")}
    refused = client.post(LOG, data=sent, files=files)
    assert refused.status_code == 409
    assert "“Hang the board on E” may not be finished yet" in words(refused)
    assert any("/surfaces/E" in href for href in links(refused).values())
    page = soup(refused)
    assert "Board is up" in page.select_one("[name=done]").get_text()
    assert page.select_one(f"[name=worked][value='{east.board}']") or page.select_one(
        f"#f-more_task option[value='{east.board}']"
    )
    kept = [tag["value"] for tag in page.select("[name=pictures_kept]")]
    assert kept == [pictures.sha256(pictures.a_jpeg())]
    assert (count(database, Workday), count(database, Photo)) == (0, 1)

    saved = client.post(LOG, data=sent | {"pictures_kept": kept, "as_worked": "yes"})
    assert saved.status_code == 303
    assert "is kept as worked on, not finished" in words(client.get(saved.headers["location"]))
    assert (count(database, Workday), count(database, PicturePlace)) == (1, 1)
    with database.reading() as session:
        assert session.get(Task, east.board).state == "under way"


def test_the_same_sending_twice_is_one_day_and_one_answer(client, database, east):
    files = {"pictures": ("a.jpg", pictures.a_jpeg(), "image/jpeg")}
    sent = {"sent_id": "made-on-the-phone", "own": "2", "spend1_what": "Screws", "spend1_total": "9.95"}
    first = client.post(LOG, data=sent, files=files)
    again = client.post(LOG, data=sent, files=files)
    assert first.headers["location"] == again.headers["location"]
    assert [count(database, table) for table in (Workday, Spend, Photo, Sent)] == [1, 1, 1, 1]


def test_the_same_id_with_other_words_is_told_and_leads_to_the_day_saved(client, database):
    first = client.post(LOG, data={"sent_id": "one", "own": "2"})
    answer = client.post(LOG, data={"sent_id": "one", "own": "3", "done": "More"})
    assert answer.status_code == 422
    assert "A day was saved from this page already, with other words in it." in words(answer)
    assert first.headers["location"] in links(answer).values()
    assert count(database, Workday) == 1
    page = soup(answer)
    new_id = page.select_one("[name=sent_id]")["value"]
    assert new_id != "one" and "More" in page.select_one("[name=done]").get_text()
    assert client.post(LOG, data={"sent_id": new_id, "own": "3", "done": "More"}).status_code == 303


def test_a_form_without_an_id_from_the_phone_has_one_of_the_server(client):
    first, second = (soup(client.get(LOG)).select_one("[name=sent_id]")["value"] for _ in range(2))
    assert first and first != second


def test_it_can_be_opened_from_a_surface_or_a_task(client, east):
    page = soup(client.get(f"{LOG}?surface={east.surface}&task={east.wiring}"))
    assert page.select_one("[name=surface] option[selected]")["value"] == str(east.surface)
    assert page.select_one(f"[name=worked][value='{east.wiring}']").has_attr("checked")


def test_the_surface_stays_on_the_one_used_last(client, east):
    client.post(LOG, data={"own": "1", "surface": str(east.surface)})
    page = soup(client.get(LOG))
    assert page.select_one("[name=surface] option[selected]")["value"] == str(east.surface)


def test_a_stranger_logs_nothing(stranger, database, build):
    answer = stranger.post(LOG, data={"own": "2"})
    assert answer.status_code in {303, 401}
    assert count(database, Workday) == 0


def test_usual_hours_are_offered_and_the_task_worked_on_last_stands_first(client, database, build):
    with database.writing() as session:
        phase = builders.a_phase(session, build)
        early = builders.a_task(session, phase, "Straps", 1, state="under way", started_on=builders.AT.date())
        late = builders.a_task(session, phase, "Plates", 2, state="under way", started_on=builders.AT.date())
        ids = {"Straps": early.row_id, "Plates": late.row_id}
    for day, title in (("2026-05-02", "Straps"), ("2026-05-09", "Plates")):
        assert client.post(LOG, data={"day": day, "own": "6.5", "worked": str(ids[title])}).status_code == 303
    page = soup(client.get(LOG))
    assert [tag["data-set"] for tag in page.select("[data-set]")] == ["6.5"]
    assert [tag.find("span").contents[0] for tag in page.select("label:has([name=worked])")] == ["Plates", "Straps"]
