"""Under which names and addresses the certificate of this machine holds, and what its authority may sign for.

The authority is trusted by the builder's own phone. So it is bound to names that no public site can have: addresses of
private networks (RFC 1918, RFC 3927, RFC 4193, RFC 4291, RFC 6598), `.local` (RFC 6762), `.home.arpa` (RFC 8375),
`.internal` (reserved by ICANN in 2024) and this machine's own names and addresses. Whoever stole its key could then
pretend to be nothing else.
"""

import ipaddress
from collections.abc import Iterable
from dataclasses import dataclass

PRIVATE_NETWORKS = (
    "127.0.0.0/8",
    "10.0.0.0/8",
    "172.16.0.0/12",
    "192.168.0.0/16",
    "169.254.0.0/16",
    "100.64.0.0/10",
    "::1/128",
    "fc00::/7",
    "fe80::/10",
)
PRIVATE_NAMES = ("localhost", "local", "home.arpa", "internal")
UNUSABLE = ("", "0.0.0.0", "::")  # noqa: S104 (what a server listens on is no name to be asked by)


@dataclass(frozen=True, slots=True)
class Names:
    """Host names and addresses, each once, in a steady order: the same ones give the same certificate."""

    hosts: tuple[str, ...]
    addresses: tuple[str, ...]


def is_private(address: str) -> bool:
    """Whether an IP address lies in one of the networks the authority may sign for."""
    asked = ipaddress.ip_address(address)
    return any(
        asked.version == network.version and asked in network for network in map(ipaddress.ip_network, PRIVATE_NETWORKS)
    )


def names_of(asked: Iterable[str]) -> Names:
    """Sort what this machine may be asked by into names and addresses; what is no name to ask by is left out."""
    hosts, addresses = {"localhost"}, {"127.0.0.1", "::1"}
    for name in asked:
        plain = name.strip("[]. ").lower()
        if plain in UNUSABLE:
            continue
        try:
            addresses.add(str(ipaddress.ip_address(plain)))
        except ValueError:
            hosts.add(plain)
    return Names(tuple(sorted(hosts)), tuple(sorted(addresses)))


def bounds(names: Names) -> tuple[str, ...]:
    """Host names below which the authority may sign: the private ones, and each own name outside of them."""
    own = (host for host in names.hosts if not any(host == it or host.endswith(f".{it}") for it in PRIVATE_NAMES))
    return (*PRIVATE_NAMES, *own)


def networks(names: Names) -> tuple[str, ...]:
    """Networks the authority may sign for: the private ones, and each own address outside of them, alone."""
    return (*PRIVATE_NETWORKS, *(str(ipaddress.ip_network(each)) for each in names.addresses if not is_private(each)))


def show_fingerprint(digest: bytes) -> str:
    """A SHA-256 in pairs of capital letters and figures, in groups of four pairs, to be compared by eye."""
    pairs = [f"{byte:02X}" for byte in digest]
    return "  ".join(" ".join(pairs[start : start + 4]) for start in range(0, len(pairs), 4))
