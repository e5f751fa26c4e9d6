"""What the own authority may sign for: private names and networks, and this machine's own."""

import pytest

from webapp.phone.rules.names import bounds, is_private, names_of, networks, show_fingerprint
from webapp.phone.rules.steps import WAYS, way_for


@pytest.mark.parametrize(
    "address",
    # RFC 1918 section 3, RFC 3927, RFC 6598, RFC 4193, RFC 4291 2.5.6: first and last of each block
    [
        "10.0.0.0",
        "10.255.255.255",
        "172.16.0.1",
        "172.31.255.254",
        "192.168.1.20",
        "169.254.9.9",
        "100.64.0.1",
        "fd00::1",
    ],
)
def test_addresses_of_a_home_are_private(address):
    assert is_private(address)


@pytest.mark.parametrize("address", ["172.32.0.1", "11.0.0.1", "100.128.0.1", "192.169.0.1", "2001:db8::1"])
def test_addresses_of_the_world_are_not(address):
    assert not is_private(address)


def test_names_and_addresses_are_told_apart_each_once_and_what_is_listened_on_is_none():
    names = names_of(["0.0.0.0", "192.168.1.20", "Shed.local", "shed.local", "[::1]", "", "127.0.0.1"])
    assert names.hosts == ("localhost", "shed.local")
    assert names.addresses == ("127.0.0.1", "192.168.1.20", "::1")


def test_only_an_own_name_widens_the_bounds():
    assert bounds(names_of(["shed.local"])) == bounds(names_of([]))
    assert set(bounds(names_of(["bench.example.org"]))) - set(bounds(names_of([]))) == {"bench.example.org"}


def test_only_an_own_public_address_widens_the_networks_and_that_one_alone():
    assert networks(names_of(["192.168.1.20"])) == networks(names_of([]))
    assert set(networks(names_of(["192.0.2.7"]))) - set(networks(names_of([]))) == {"192.0.2.7/32"}


def test_a_fingerprint_is_read_in_groups():
    assert show_fingerprint(bytes(range(10))) == "00 01 02 03  04 05 06 07  08 09"


@pytest.mark.parametrize(
    ("agent", "key"),
    [
        ("Mozilla/5.0 (Linux; Android 14) Mobile", "android"),
        ("Mozilla/5.0 (iPhone; CPU iPhone OS 17_0 like Mac OS X)", "ios"),
        ("Mozilla/5.0 (X11; Linux x86_64)", "desk"),
        ("", "ios"),
    ],
)
def test_the_way_that_fits_the_phone_comes_first(agent, key):
    assert way_for(agent) == key
    assert key in {way.key for way in WAYS}
    assert all(0 <= step.tap < len(step.lines) for way in WAYS for step in way.steps)
