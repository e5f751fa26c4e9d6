"""What everyone may see, signed out: frozen copies, pictures under names that say nothing, no cookie, no script."""

from datetime import UTC, date, datetime

import pytest

from tests import pictures
from tests.counting import queries
from tests.reading import headings, links, soup, words
from webapp.audience import actions
from webapp.audience.rules.snapshot import Caution, SentPicture, Snapshot
from webapp.photos import files

AT = datetime(2026, 5, 16, 18, 0, tzinfo=UTC)


def a_snapshot(number: int = 1, **more: object) -> Snapshot:
    copies = files.encode(pictures.a_jpeg(place=True), "east.jpg")
    values = {
        "slug": "bindery",
        "build": "Bindery",
        "title": f"Story {number}",
        "from_day": date(2026, 5, 1),
        "to_day": date(2026, 5, 8),
        "text_md": "It **held**.",
        "author": "the builder",
        "cautions": (Caution("Ladders and falls", ("Tie the top.",), "29 CFR 1926.1053"),),
        "pictures": (SentPicture(copies[1280].body, copies[320].body, 96, 64, "East wall", "Open studs"),),
    }
    return Snapshot(number=number, **(values | more))


@pytest.fixture
def put_up(database, settings):
    def put(*snapshots: Snapshot) -> None:
        with database.writing() as session:
            for snapshot in snapshots:
                actions.put_up(session, settings.photos, snapshot, AT)

    return put


def correct(database, number: int, sentence: str, day: date = date(2026, 5, 17)) -> None:
    with database.writing() as session:
        actions.correct(session, "bindery", number, sentence, day, AT)


def test_nothing_published_is_said_kindly(stranger):
    assert "Nothing has been published here yet." in words(stranger.get("/watch"))
    assert stranger.get("/watch/bindery").status_code == 404


def test_the_episode_tells_its_text_its_picture_and_its_cautions(stranger, put_up):
    put_up(a_snapshot())
    page = stranger.get("/watch/bindery/1")
    assert headings(page)[0] == "Episode 1: Story 1"
    assert "Built 1 May 2026 to 8 May 2026." in words(page)
    assert soup(page).select_one("img")["alt"] == "Open studs"
    assert words(page, ".cautions") == "Ladders and falls Tie the top. Source: 29 CFR 1926.1053"
    assert "Your local authority and licensed people decide." in words(page)


def test_dated_corrections_stand_above_the_text_latest_first(stranger, database, put_up):
    put_up(a_snapshot())
    correct(database, 1, "South was held.")
    correct(database, 1, "Thirty, not thirty-six.", date(2026, 5, 20))
    page = words(stranger.get("/watch/bindery/1"))
    assert page.startswith("2 Correction, 20 May 2026 Thirty, not thirty-six.")
    assert page.index("South was held.") < page.index("Episode 1: Story 1")


def test_episodes_are_listed_newest_first_and_lead_on_in_watch_order(stranger, put_up):
    put_up(a_snapshot(1), a_snapshot(2), a_snapshot(3))
    page = stranger.get("/watch/bindery")
    lines = soup(page).select("main .tales a")
    assert [tag["href"] for tag in lines] == [f"/watch/bindery/{n}" for n in (3, 2, 1)]
    assert all(tag.img["src"].endswith("-320.webp") and tag.img["alt"] == "" for tag in lines)
    assert links(page)["New here? Begin with the first one"] == "/watch/bindery/1"
    around = links(stranger.get("/watch/bindery/2"))
    assert around["Before: episode 1, Story 1"] == "/watch/bindery/1"
    assert around["Next: episode 3, Story 3"] == "/watch/bindery/3"


def test_every_build_that_published_is_listed(stranger, put_up):
    put_up(a_snapshot(1), a_snapshot(2), a_snapshot(1, slug="boathouse", build="Boathouse"))
    page = stranger.get("/watch")
    assert [tag["href"] for tag in soup(page).select("main .rows a")] == ["/watch/bindery", "/watch/boathouse"]
    assert "2 episodes" in words(page)


def test_a_number_goes_out_once(put_up):
    put_up(a_snapshot())
    with pytest.raises(Exception, match="Episode 1 is public already"):
        put_up(a_snapshot())


@pytest.mark.parametrize("path", ["/watch", "/watch/bindery", "/watch/bindery/1", "/watch/bindery/feed.xml"])
def test_public_pages_set_no_cookie_run_no_script_and_lead_nowhere_private(stranger, put_up, path):
    put_up(a_snapshot())
    answer = stranger.get(path)
    assert "set-cookie" not in answer.headers
    assert answer.headers["cache-control"] == "public, max-age=300"
    assert "<script" not in answer.text and "hx-" not in answer.text
    assert "/builds/" not in answer.text and "Not sent" not in answer.text
    again = stranger.get(path, headers={"if-none-match": answer.headers["etag"]})
    assert (again.status_code, again.content) == (304, b"")


def test_a_page_that_changed_has_another_tag(stranger, database, put_up):
    put_up(a_snapshot())
    before = stranger.get("/watch/bindery/1").headers["etag"]
    correct(database, 1, "South was held.")
    assert stranger.get("/watch/bindery/1", headers={"if-none-match": before}).status_code == 200


def test_pictures_are_served_for_good_under_names_that_say_nothing(stranger, put_up):
    put_up(a_snapshot())
    image = soup(stranger.get("/watch/bindery/1")).select_one("img")
    for address in (image["src"], image["srcset"].split()[0]):
        answer = stranger.get(address)
        assert (answer.status_code, answer.headers["content-type"]) == (200, "image/webp")
        assert pictures.seen_corners(answer.content) == pictures.CORNERS
        assert "immutable" in answer.headers["cache-control"] and "set-cookie" not in answer.headers
        assert stranger.get(address, headers={"if-none-match": answer.headers["etag"]}).status_code == 304


def test_a_file_that_no_episode_shows_is_not_given_out(stranger, settings, put_up):
    put_up(a_snapshot())
    left_behind = f"{'a' * 32}-1280.webp"
    (settings.photos / "public" / left_behind).write_bytes(b"left by a failed save")
    for name in (left_behind, "..%2F..%2Fstudbay.sqlite3", "nothing", f"{'b' * 32}-640.webp"):
        assert stranger.get(f"/watch/pictures/{name}").status_code == 404


@pytest.mark.parametrize("path", ["/watch/bindery/2", "/watch/bindery/one", "/watch/nothing/1", "/watch/x/feed.xml"])
def test_what_is_not_there_is_a_page_that_says_so(stranger, put_up, path):
    put_up(a_snapshot())
    answer = stranger.get(path)
    assert answer.status_code == 404 and "Not here" in words(answer)


def test_a_build_called_like_the_pictures_is_still_reached(stranger, put_up):
    put_up(a_snapshot(1, slug="pictures", build="Pictures"))
    assert stranger.get("/watch/pictures-build/1").status_code == 200


def test_fifty_episodes_take_as_many_queries_as_five(stranger, database, put_up):
    def counted() -> list[int]:
        found = []
        for path in ("/watch", "/watch/bindery", "/watch/bindery/feed.xml", "/watch/bindery/1"):
            with queries(database) as sent:
                assert stranger.get(path).status_code == 200
            found.append(len(sent))
        return found

    put_up(*(a_snapshot(number) for number in range(1, 6)))
    few = counted()
    put_up(*(a_snapshot(number, pictures=()) for number in range(6, 51)))
    assert counted() == few
    assert max(few) <= 5
