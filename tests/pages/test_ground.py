"""The ground every page stands on: who may ask, what is refused, and that an error leads onward."""

from tests.reading import links, soup, words


def test_a_stranger_is_led_to_the_sign_in_and_back(stranger, build):
    answer = stranger.get("/builds/bindery/today")
    assert answer.status_code == 303
    assert answer.headers["location"] == "/sign-in?next=/builds/bindery/today"


def test_what_was_asked_comes_back_whole_after_signing_in(stranger, build):
    answer = stranger.get("/builds/bindery/what-stops?phase=3&all=1")
    assert answer.headers["location"] == "/sign-in?next=/builds/bindery/what-stops%3Fphase%3D3%26all%3D1"
    assert 'value="/builds/bindery/what-stops?phase=3&amp;all=1"' in stranger.get(answer.headers["location"]).text


def test_an_error_page_names_each_way_on_once(client):
    ways = soup(client.get("/builds/boathouse/today")).select("main a[href='/']")
    assert [way.get_text(" ", strip=True) for way in ways] == ["To today"]


def test_a_page_that_is_not_there_leads_onward(client):
    answer = client.get("/builds/bindery/nothing-of-the-kind")
    assert answer.status_code == 404
    assert links(answer), "an error page has a way on"


def test_a_build_that_is_not_there_says_so(client):
    answer = client.get("/builds/boathouse/today")
    assert answer.status_code == 404
    assert "no build of this name" in words(answer)


def test_another_site_cannot_change_anything(client):
    answer = client.post("/look", data={"look": "sun"}, headers={"sec-fetch-site": "cross-site"})
    assert answer.status_code == 403
    old_browser = client.post("/look", headers={"sec-fetch-site": "", "origin": "http://elsewhere.example"})
    assert old_browser.status_code == 403


def test_a_foreign_name_for_this_server_is_refused(client):
    assert client.get("/", headers={"host": "elsewhere.example"}).status_code == 421


def test_every_answer_carries_the_strict_policy(client):
    policy = client.get("/").headers["content-security-policy"]
    assert "default-src 'none'" in policy
    assert "unsafe-inline" not in policy
