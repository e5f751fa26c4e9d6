"""Wrong passwords slow down: the fifth within an hour waits two seconds, each further one twice as long."""

import ipaddress
from collections.abc import Sequence
from datetime import datetime, timedelta

FREE_TRIES = 4
LONGEST_WAIT = 15 * 60
"""in seconds"""
REMEMBERED = timedelta(hours=1)


def wait_after(wrong_tries: int) -> int:
    """Seconds to wait after so many wrong tries within the hour: 0 for the first four, then 2, 4, 8 … 900."""
    beyond = wrong_tries - FREE_TRIES
    return 0 if beyond <= 0 else min(2 ** min(beyond, 20), LONGEST_WAIT)


def seconds_left(tries: Sequence[datetime], now: datetime) -> int:
    """Whole seconds, rounded up, until the next try is looked at; `tries` in any order, older ones do not count."""
    counted = [moment for moment in tries if now - moment < REMEMBERED]
    if not counted:
        return 0
    until = max(counted) + timedelta(seconds=wait_after(len(counted)))
    return max(0, -((now - until) // timedelta(seconds=1)))


def counted_as(address: str) -> str:
    """The address that tries are counted under: the whole for IPv4, the network of 64 bits for IPv6.

    One subscriber is given at least such a network (RFC 6177, 2), so its owner could change the rest at will.
    """
    try:
        parsed = ipaddress.ip_address(address.partition("%")[0])
    except ValueError:
        return address[:64]
    if isinstance(parsed, ipaddress.IPv6Address):
        if parsed.ipv4_mapped:
            return str(parsed.ipv4_mapped)
        return str(ipaddress.ip_network((parsed, 64), strict=False))
    return str(parsed)


def is_this_machine(address: str) -> bool:
    """Whether somebody asks from the machine Studbay runs on."""
    try:
        parsed = ipaddress.ip_address(address)
    except ValueError:
        return False
    mapped = parsed.ipv4_mapped if isinstance(parsed, ipaddress.IPv6Address) else None
    return (mapped or parsed).is_loopback


def show_wait(seconds: int) -> str:
    """`8 seconds`, `1 minute`, `15 minutes`; minutes are rounded up."""
    if seconds < 60:
        return f"{seconds} second{'s' if seconds != 1 else ''}"
    minutes = -(-seconds // 60)
    return f"{minutes} minute{'s' if minutes != 1 else ''}"
