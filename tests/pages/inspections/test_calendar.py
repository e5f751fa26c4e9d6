"""The calendar: RFC 5545, read back by another library than the one that wrote it, behind a secret address.

Outside checks: `vobject` parses it; RFC 5545 3.1 (lines of at most 75 octets, CRLF), 3.3.5 form 1 (floating time),
3.6.1 (a DATE without end is one day), 3.8.7.4 (SEQUENCE goes up).
"""

from datetime import date, datetime, timedelta

import pytest
import vobject

from tests import builders
from tests.reading import soup, words

BASE = "/builds/bindery"
SECRETS = ("BP-2026-0117", "12 Elm Street", "Joe", "clerk at 555-0100")


@pytest.fixture
def booked(client, database, build) -> str:
    """Framing planned for Tuesday 26 May, between nine and noon; gives the path of the visit."""
    with database.writing() as session:
        permit = builders.a_permit(
            session,
            build,
            "BLD",
            name="Building permit",
            issued_on=date(2026, 1, 12),
            number=SECRETS[0],
            covers=SECRETS[1],
        )
        office = builders.an_office(session, build, cancel_by="07:00", reach=SECRETS[3])
        framing = builders.an_inspection(session, permit, "Framing; posts, beams\\joists", office_id=office.row_id)
        visit = builders.a_visit(
            session, framing, date(2026, 5, 26), outcome="planned", window="between 9:00 and 12:00", note=SECRETS[2]
        )
        return f"{BASE}/visits/{visit.row_id}"


@pytest.fixture
def address(client, booked) -> str:
    client.post(f"{BASE}/calendar/key")
    return soup(client.get(f"{BASE}/calendar")).select_one("#f-address")["value"]


def entries(answer) -> dict[str, vobject.base.Component]:
    """Entries by their titles, as the other library reads them."""
    found = {}
    for component in vobject.readComponents(answer.text):
        found |= {each.summary.value: each for each in component.vevent_list}
    return found


NAME = "Framing; posts, beams\\joists"


def test_another_library_reads_the_same_days_and_hours(stranger, address):
    found = entries(stranger.get(address))
    visit = found[f"Visit: {NAME}"]
    assert visit.dtstart.value == datetime(2026, 5, 26, 9, 0)
    assert visit.dtend.value == datetime(2026, 5, 26, 12, 0)
    assert visit.status.value == "TENTATIVE"
    ask = found[f"Ask by 15:30: {NAME}"]
    assert ask.dtstart.value == datetime(2026, 5, 22, 15, 30), "two working days before Tuesday is Friday"
    assert sorted(alarm.trigger.value for alarm in ask.valarm_list) == [timedelta(days=-1), timedelta(hours=-2)]
    assert found[f"Call off by 07:00 if not ready: {NAME}"].dtstart.value == datetime(2026, 5, 26, 7, 0)
    assert found["Last day of Building permit"].dtstart.value == date(2026, 7, 11)
    assert found[f"Last useful day for {NAME}"].dtstart.value == date(2026, 7, 9)
    assert found[f"Ask by 15:30 at the latest: {NAME}"].dtstart.value == datetime(2026, 7, 7, 15, 30)


def test_it_keeps_the_form_of_the_standard(stranger, address):
    answer = stranger.get(address)
    assert answer.headers["content-type"] == "text/calendar; charset=utf-8"
    assert answer.content.endswith(b"END:VCALENDAR\r\n")
    lines = answer.content.split(b"\r\n")
    assert max(map(len, lines)) <= 75
    assert not any(b"\n" in line or b"\r" in line for line in lines)
    unfolded = answer.content.replace(b"\r\n ", b"").decode()
    assert "BEGIN:VCALENDAR\r\nVERSION:2.0" in unfolded and "PRODID:-//Studbay//" in unfolded
    assert "SUMMARY:Visit: Framing\\; posts\\, beams\\\\joists\r\n" in unfolded
    assert "DTSTART;VALUE=DATE:20260711\r\n" in unfolded
    assert "DTSTART:20260522T153000\r\n" in unfolded, "floating: neither Z nor TZID"
    assert unfolded.count("BEGIN:VEVENT") == unfolded.count("DTSTAMP:20") == unfolded.count("\r\nUID:")


def test_nothing_of_the_paper_the_place_or_a_person_is_in_it(stranger, address):
    body = stranger.get(address).text.replace("\r\n ", "")
    for secret in SECRETS:
        assert secret not in body
    assert "Building permit" in body, "the check could find something"


def test_a_moved_visit_keeps_its_uid_and_its_sequence_goes_up(client, stranger, address, booked):
    before = entries(stranger.get(address))[f"Visit: {NAME}"]
    client.post(f"{booked}/move", data={"day": "2026-05-28", "window": "9:00-12:00", "why": "window is not in"})
    after = entries(stranger.get(address))[f"Visit: {NAME}"]
    assert after.uid.value == before.uid.value
    assert int(after.sequence.value) > int(before.sequence.value)
    assert after.dtstart.value == datetime(2026, 5, 28, 9, 0)
    client.post(f"{BASE}/calendar/key")
    new = soup(client.get(f"{BASE}/calendar")).select_one("#f-address")["value"]
    assert entries(stranger.get(new))[f"Visit: {NAME}"].uid.value == before.uid.value, "whatever the address"


def test_a_visit_called_off_stays_as_cancelled_and_its_moments_with_it(client, stranger, address, booked):
    client.post(f"{booked}/cancel", data={"reason": "rain"})
    found = entries(stranger.get(address))
    for title in (f"Visit: {NAME}", f"Ask by 15:30: {NAME}", f"Call off by 07:00 if not ready: {NAME}"):
        assert found[title].status.value == "CANCELLED"
        assert not hasattr(found[title], "valarm")


def test_once_asked_for_the_moment_to_ask_is_let_go_of(client, stranger, address, booked):
    client.post(f"{booked}/move", data={"day": "2026-05-26", "window": "", "asked_on": "2026-05-15"})
    found = entries(stranger.get(address))
    assert found[f"Visit: {NAME}"].status.value == "CONFIRMED"
    assert found[f"Visit: {NAME}"].dtstart.value == date(2026, 5, 26), "without hours it is a day"
    assert found[f"Ask by 15:30: {NAME}"].status.value == "CANCELLED"


def test_a_new_address_ends_the_old_one_and_a_made_up_one_never_was(client, stranger, address):
    assert stranger.get(address).status_code == 200
    client.post(f"{BASE}/calendar/key")
    new = soup(client.get(f"{BASE}/calendar")).select_one("#f-address")["value"]
    assert new != address
    assert stranger.get(address).status_code == 410
    assert stranger.get(new).status_code == 200
    assert stranger.get(f"{new[:-5]}x.ics").status_code == 404
    client.post(f"{BASE}/calendar/end")
    assert stranger.get(new).status_code == 410
    assert "Make the address" in words(client.get(f"{BASE}/calendar"))


def test_the_secret_is_long_and_no_copy_of_the_answer_is_kept_anywhere(stranger, address):
    """32 bytes as `secrets.token_urlsafe` gives them are 43 characters (its documentation)."""
    assert len(address.rpartition("/")[2].removesuffix(".ics")) == 43
    answer = stranger.get(address)
    assert answer.headers["cache-control"] == "private, no-store"
    assert answer.headers["referrer-policy"] == "no-referrer"
    assert "set-cookie" not in answer.headers
    assert "etag" not in answer.headers


def test_the_file_is_the_same_calendar(client, stranger, address):
    answer = client.get(f"{BASE}/calendar.ics")
    assert answer.headers["content-disposition"] == 'attachment; filename="bindery.ics"'
    assert answer.content == stranger.get(address).content
    assert stranger.get(f"{BASE}/calendar.ics").status_code in {303, 401}


def test_an_empty_build_has_an_empty_calendar(client, stranger, build):
    client.post(f"{BASE}/calendar/key")
    found = soup(client.get(f"{BASE}/calendar")).select_one("#f-address")["value"]
    assert b"BEGIN:VEVENT" not in stranger.get(found).content
    assert "Nothing is ahead yet" in words(client.get(f"{BASE}/calendar"))
