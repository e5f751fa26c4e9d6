"""Pictures of a day: good ones are kept whatever else is wrong, bad ones get a sentence, each counts once."""

from sqlmodel import select

from tests import pictures
from tests.pages.workdays.conftest import LOG
from tests.reading import field_errors, soup, words
from webapp.money.models import Spend
from webapp.photos.models import Photo
from webapp.surfaces.models import PicturePlace, PictureSlot
from webapp.workdays.models import Workday, WorkdayPhoto


def everything(database, table) -> list:
    with database.reading() as session:
        return list(session.exec(select(table)).all())


def a_file(body: bytes, name: str = "a.jpg") -> tuple[str, tuple[str, bytes, str]]:
    return ("pictures", (name, body, "image/jpeg"))


def test_several_pictures_are_placed_on_the_thing_they_show(client, database, east):
    files = [a_file(pictures.a_jpeg()), a_file(pictures.a_png(), "b.png")]
    assert client.post(LOG, data={"item": str(east.item)}, files=files).status_code == 303
    placed = {(one.surface_id, one.item_id) for one in everything(database, PicturePlace)}
    assert placed == {(east.surface, east.item)}
    assert len(everything(database, WorkdayPhoto)) == 2


def test_a_picture_fills_the_owed_one_with_the_time_it_was_taken(client, database, east):
    body = pictures.a_jpeg(taken="2026:05:15 17:48:00")
    client.post(LOG, data={"slot": str(east.slot)}, files=[a_file(body)])
    photo, slot = everything(database, Photo)[0], everything(database, PictureSlot)[0]
    assert (slot.photo_id, photo.taken_at, photo.taken_from) == (photo.row_id, "2026-05-15T17:48:00", "camera")


def test_an_owed_picture_needs_a_picture(client, database, east):
    answer = client.post(LOG, data={"own": "1", "slot": str(east.slot)})
    assert "Send the picture that fills this" in field_errors(answer)["slot"]


def test_a_bad_file_among_good_ones_does_not_stop_the_day(client, database, east):
    files = [
        a_file(pictures.a_jpeg()),
        a_file(b"<svg xmlns='http://www.w3.org/2000/svg'/>", "plan.svg"),
        a_file(pictures.a_png_header(30_000, 30_000), "bomb.png"),
        a_file(b"", "empty.jpg"),
    ]
    answer = client.post(LOG, data={"own": "2"}, files=files)
    assert answer.status_code == 303
    page = client.get(answer.headers["location"])
    assert "3 files were not taken; all else is saved." in words(page)
    assert all(f"“{name}”" in words(page) for name in ("plan.svg", "bomb.png", "empty.jpg"))
    assert len(everything(database, WorkdayPhoto)) == 1
    assert soup(page).select_one("a[href$='/amend#pictures']") is not None


def test_a_day_that_is_only_a_bad_file_is_not_saved_and_says_why(client, database, east):
    answer = client.post(LOG, files=[a_file(b"%PDF-1.7", "plan.pdf")])
    assert answer.status_code == 422
    assert "“plan.pdf”" in field_errors(answer)["pictures"]
    assert everything(database, Workday) == []


def test_a_picture_over_the_limit_names_itself_and_the_limit(client, database, settings):
    too_large = pictures.a_jpeg() + bytes(settings.picture_mb * 1024 * 1024)
    answer = client.post(LOG, data={"own": "1"}, files=[a_file(too_large, "large.jpg")])
    assert f"“large.jpg” is larger than {settings.picture_mb} MB" in words(client.get(answer.headers["location"]))


def test_the_same_picture_twice_counts_once_under_whatever_name(client, database, east):
    body = pictures.a_jpeg()
    client.post(LOG, data={"surface": str(east.surface)}, files=[a_file(body), a_file(body, "copy.jpg")])
    client.post(LOG, data={"surface": str(east.surface), "own": "1"}, files=[a_file(body, "again.jpg")])
    assert [len(everything(database, table)) for table in (Photo, PicturePlace, WorkdayPhoto)] == [1, 1, 2]


def test_where_a_picture_was_taken_is_neither_read_nor_shown(client, database, east):
    body = pictures.a_jpeg(place=True)
    answer = client.post(LOG, files=[a_file(body)])
    page = client.get(answer.headers["location"].split("/saved")[0])
    assert "date unknown" in words(page)
    row = everything(database, Photo)[0]
    assert not {"lat", "lon", "place", "gps"} & {name.lower() for name in type(row).model_fields}
    assert "Camera of nobody" not in page.text


def test_pictures_are_kept_when_another_field_is_wrong_and_need_not_be_sent_again(client, database, east):
    body = pictures.a_jpeg()
    refused = client.post(LOG, data={"own": "two"}, files=[a_file(body)])
    assert refused.status_code == 422
    assert "Kept already, no need to send again: a.jpg." in words(refused)
    kept = soup(refused).select_one("[name=pictures_kept]")["value"]
    client.post(LOG, data={"own": "2", "pictures_kept": kept})
    assert len(everything(database, WorkdayPhoto)) == 1


def test_a_kept_picture_that_never_was_is_passed_over(client, database):
    client.post(LOG, data={"own": "2", "pictures_kept": ["0" * 64, "../../etc/passwd"]})
    assert (len(everything(database, Workday)), everything(database, WorkdayPhoto)) == (1, [])


def test_a_receipt_goes_to_its_line_of_spend_and_not_among_the_days_pictures(client, database):
    files = [("spend1_receipt", ("r.jpg", pictures.a_jpeg(), "image/jpeg"))]
    client.post(LOG, data={"spend1_what": "Screws", "spend1_total": "9.95", "spend1_from": "The yard"}, files=files)
    line = everything(database, Spend)[0]
    assert line.receipt_photo_id == everything(database, Photo)[0].row_id
    assert everything(database, WorkdayPhoto) == []


def test_a_receipt_is_kept_while_its_amount_is_wrong(client, database):
    files = [("spend2_receipt", ("r.jpg", pictures.a_jpeg(), "image/jpeg"))]
    refused = client.post(LOG, data={"spend2_what": "Screws", "spend2_total": "much"}, files=files)
    kept = soup(refused).select_one("[name=spend2_receipt_kept]")["value"]
    sent = {"spend2_what": "Screws", "spend2_total": "9.95", "spend2_receipt_kept": kept}
    assert client.post(LOG, data=sent).status_code == 303
    assert everything(database, Spend)[0].receipt_photo_id is not None


def test_a_lost_answer_sent_again_with_the_kept_picture_is_still_the_same_day(client, database):
    """The picture came with the first sending and as a kept one with the second: the content is the same."""
    body = pictures.a_jpeg()
    first = client.post(LOG, data={"sent_id": "one", "own": "2"}, files=[a_file(body)])
    again = client.post(LOG, data={"sent_id": "one", "own": "2", "pictures_kept": pictures.sha256(body)})
    assert again.headers["location"] == first.headers["location"]
    assert len(everything(database, Workday)) == 1
