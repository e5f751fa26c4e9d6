"""P2: what is booked for a day costs the same for five as for fifty."""

from tests.counting import queries
from tests.reading import soup

BASE = "/builds/bindery"


def test_fifty_bookings_ask_no_more_than_five(client, database):
    counts = []
    for many in (5, 45):
        for number in range(many):
            sent = {"what": f"Truck {number}", "day": "2026-05-20", "cancel_by": "07:00", "note": "calls before"}
            assert client.post(f"{BASE}/booked", data=sent).status_code == 303
        with queries(database, anew=True) as asked:
            page = client.get(f"{BASE}/booked")
        counts.append((len(asked), len(soup(page).select("#main .rows > li"))))
    (five, rows), (fifty, more) = counts
    assert (rows, more) == (5, 50)
    assert 0 < five == fifty
