"""What was said aloud: kept byte for byte and private, heard again in parts, written down later, placed later."""

import pytest

from tests import builders, sounds
from tests.counting import queries
from tests.pictures import sha256
from tests.reading import field_errors, headings, links, soup, words
from webapp.voice.store import list_note_changes, list_notes

BASE = "/builds/bindery"
SAID = f"{BASE}/said"
WAV = sounds.a_wav(2)


@pytest.fixture
def site(database, build):
    with database.writing() as session:
        builders.a_surface(session, build)
        builders.a_workday(session, build)
        builders.a_visit(session, builders.an_inspection(session, builders.a_permit(session, build)))


def send(client, body: bytes = WAV, name: str = "note.wav", **fields: str):
    return client.post(SAID, data=fields, files=[("sound", (name, body))] if body else [("x", ("", b""))])


def notes(database):
    with database.reading() as session:
        return list_notes(session, 1)


def test_a_sound_is_kept_to_the_byte_and_heard_where_it_belongs(client, site, database, settings):
    answer = send(client, about="surface/E", said_at="2026-05-16T17:48:00")
    page = client.get(answer.headers["location"])
    assert "Kept as sound, at East wall." in words(page)
    path = settings.voice / "originals" / sha256(WAV)[:2] / sha256(WAV)
    assert path.read_bytes() == WAV
    (note,) = notes(database)
    assert (note.media_type, note.seconds, note.size) == ("audio/wav", 2, len(WAV))
    shown = soup(client.get(f"{SAID}/of/surface/E")).select_one("audio")
    assert (shown["preload"], shown.has_attr("controls")) == ("none", True)
    heard = client.get(shown["src"])
    assert heard.content == WAV
    assert heard.headers["content-type"] == "audio/wav"
    assert "immutable" in heard.headers["cache-control"] and "private" in heard.headers["cache-control"]


def test_a_player_gets_the_part_it_asks_for(client, site):
    send(client)
    part = client.get(f"{SAID}/1/sound", headers={"range": "bytes=100-299"})
    assert part.status_code == 206
    assert part.content == WAV[100:300]
    assert part.headers["content-range"] == f"bytes 100-299/{len(WAV)}"
    assert client.get(f"{SAID}/1/sound", headers={"range": "bytes=-50"}).content == WAV[-50:]
    assert client.get(f"{SAID}/1/sound", headers={"range": f"bytes={len(WAV)}-"}).status_code == 416
    head = client.head(f"{SAID}/1/sound")
    assert (head.headers["accept-ranges"], head.content) == ("bytes", b"")


@pytest.mark.parametrize("path", ["surfaces/E", "workdays/1", "visits/1"])
def test_each_place_shows_what_was_said_at_it_and_leads_to_saying_more(client, site, path):
    kind = {"surfaces/E": "surface/E", "workdays/1": "workday/1", "visits/1": "visit/1"}[path]
    send(client, about=kind)
    part = soup(client.get(f"{BASE}/{path}")).select_one(f"[hx-get='{SAID}/of/{kind}']")
    page = client.get(part["hx-get"])
    assert len(soup(page).select("audio")) == 1
    way = links(page)["Say it"]
    assert soup(client.get(way)).select_one("#f-about option[selected]")["value"] == kind


def test_a_loose_one_is_placed_later_and_where_it_was_stays_readable(client, site, database):
    answer = send(client)
    assert "Say later where it belongs" in words(client.get(answer.headers["location"]))
    client.post(f"{SAID}/1/place", data={"about": "workday/1"})
    assert notes(database)[0].about_kind == "workday"
    client.post(f"{SAID}/1/place", data={"about": "visit/1"})
    page = words(client.get(f"{SAID}/1"))
    assert "Place before: Sat 9 May" in page
    assert "Place before: nowhere yet" in page
    client.post(f"{SAID}/1/place", data={"about": ""})
    assert (notes(database)[0].about_kind, notes(database)[0].about_id) == ("", None)
    assert client.post(f"{SAID}/1/place", data={"about": "surface/X"}).status_code == 422


def test_those_without_words_come_first_and_their_words_keep_a_history(client, site, database):
    for number in range(3):
        send(client, sounds.a_wav(1, 300 + number), said_at=f"2026-05-1{number}T09:00:00")
    page = client.get(SAID)
    assert headings(page)[:3] == ["Said", "3 not written down yet", "Tue 12 May"]
    form = soup(page).select_one("form[action$='/3/words']")
    data = {tag["name"]: tag.get("value", "") for tag in form.select("input")} | {"words": "Vent is 2 in off."}
    assert client.post(f"{SAID}/3/words", data=data).headers["location"] == SAID
    page = client.get(SAID)
    assert headings(page)[1] == "2 not written down yet"
    assert "Vent is 2 in off." in words(page)
    client.post(f"{SAID}/3/words", data={"words": "Vent is 3 in off."})
    assert "Words before: Vent is 2 in off." in words(client.get(f"{SAID}/3"))
    with database.reading() as session:
        assert len(list_note_changes(session, 3)) == 2
    assert client.post(f"{SAID}/3/words", data={"words": "x" * 4001}).status_code == 422


def test_when_it_was_said_is_the_recorder_s_word_or_unknown_and_plainly_so(client, site, database):
    send(client, sounds.a_wav(1, 301))
    send(client, sounds.a_wav(1, 302), said_at="2199-01-01T09:00:00")
    send(client, sounds.a_wav(1, 303), said_at="yesterday")
    assert [note.said_at for note in notes(database)] == [None, None, None]
    assert "time unknown" in words(client.get(SAID))
    send(client, sounds.a_webm(), name="said.webm", said_at="2026-05-09T17:48:00", seconds="42")
    page = words(client.get(f"{SAID}/4"))
    assert "Sat 9 May, 17:48" in page and "0:42" in page
    send(client, sounds.an_ogg(), name="said.ogg", seconds="999999")
    assert notes(database)[0].seconds is None


@pytest.mark.parametrize(
    ("body", "sentence"),
    [
        (b"", "Record something first"),
        (b"%PDF-1.7", "“x.wav” is not a sound that can be kept. WebM, Ogg"),
        (sounds.an_mp4(b"vide", b"soun"), "“x.wav” is a film"),
        (WAV + b"\0" * (31 * 1024 * 1024), "“x.wav” is larger than 30 MB"),
    ],
)
def test_what_cannot_be_kept_is_said_beside_the_field_and_the_words_stay(
    client, site, database, settings, body, sentence
):
    answer = send(client, body, "x.wav", words="The drain", about="surface/E")
    assert answer.status_code == 422
    assert sentence in field_errors(answer)["sound"]
    assert "The drain" in soup(answer).select_one("#f-words").text
    assert soup(answer).select_one("#f-about option[selected]")["value"] == "surface/E"
    assert notes(database) == ()
    assert not list((settings.voice).rglob("incoming/*"))


def test_a_good_sound_is_not_lost_when_another_field_is_wrong(client, site, database):
    answer = send(client, WAV, words="x" * 4001)
    assert answer.status_code == 422
    kept = soup(answer).select_one("[name=sound_kept]")["value"]
    assert "The sound is here already" in words(answer)
    assert send(client, b"", sound_kept=kept, words="Shorter").status_code == 303
    assert notes(database)[0].words == "Shorter"
    assert send(client, b"", sound_kept="../../etc/passwd:audio/wav::x").status_code == 422


def test_the_same_sound_twice_is_one_note_and_gets_the_place_it_had_not(client, site, database):
    first, second = send(client), send(client, about="surface/E", words="Again")
    assert first.headers["location"] == second.headers["location"]
    (note,) = notes(database)
    assert (note.about_kind, note.words) == ("surface", "Again")
    send(client, about="workday/1", words="Other")
    assert notes(database)[0].about_kind == "surface", "what was said of it stays"


def test_sent_twice_under_one_id_it_is_kept_once_and_answers_the_same(client, site, database):
    first, second = (send(client, WAV, sent_id="one") for _ in range(2))
    assert first.headers["location"] == second.headers["location"]
    assert len(notes(database)) == 1


def test_every_form_can_wait_without_signal(client, site):
    send(client)
    for path in (f"{SAID}/new", f"{SAID}/1", SAID):
        forms = soup(client.get(path)).select("main form[method=post]")
        assert forms, path
        assert all("sender" in form["data-behaviour"].split() and form.select_one("[name=sent_id]") for form in forms)


def test_a_note_of_another_build_is_not_here(client, site, database):
    send(client)
    with database.writing() as session:
        builders.a_build(session, "Shed")
    for path in ("1", "1/sound", "of/surface/E"):
        assert client.get(f"/builds/shed/said/{path}").status_code == 404, path
    assert client.post("/builds/shed/said/1/words", data={"words": "x"}).status_code == 404


def test_a_sound_that_is_not_on_the_disk_is_said_to_be_gone(client, site, settings):
    send(client)
    (settings.voice / "originals" / sha256(WAV)[:2] / sha256(WAV)).unlink()
    assert "A copy may still hold it" in words(client.get(f"{SAID}/1/sound"))


@pytest.mark.parametrize("path", ["", "/new", "/1", "/1/sound", "/of/surface/E"])
def test_a_stranger_hears_nothing(stranger, client, site, path):
    send(client, about="surface/E", words="Secret words")
    answer = stranger.get(f"{SAID}{path}")
    assert answer.status_code in {303, 401}
    assert "Secret" not in answer.text and b"RIFF" not in answer.content


def test_a_stranger_sends_nothing(stranger, client, site, database):
    for path in ("", "/1/words", "/1/place"):
        assert stranger.post(f"{SAID}{path}", data={"words": "x"}).status_code in {303, 401}
    assert notes(database) == ()


def test_five_and_fifty_notes_cost_the_same_number_of_questions(client, site, database):
    def asked(count: int) -> int:
        for number in range(count):
            send(client, sounds.a_wav(0.01, 200 + number + count), about="surface/E")
        with queries(database, anew=True) as sent:
            client.get(SAID)
            client.get(f"{SAID}/of/surface/E")
        return len(sent)

    assert asked(5) == asked(45)


def test_many_days_are_turned_over(client, site, database):
    with database.writing() as session:
        for number in range(61):
            builders.a_voice_note(session, session.get_one(builders.Build, 1), words=f"Note {number}")
    first = client.get(SAID)
    assert len(soup(first).select("audio")) == 60
    assert len(soup(client.get(links(first)["Older ones"])).select("audio")) == 1
