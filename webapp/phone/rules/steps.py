"""How a phone is led to trust this machine, in words. From memory; makers move and rename these from year to year."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Step:
    """One step: what to do, the screen's title, its lines, the line to tap, and whether that line is a switch."""

    words: str
    title: str
    lines: tuple[str, ...]
    tap: int
    switch: bool = False


@dataclass(frozen=True, slots=True)
class Way:
    """The steps on one family of phones."""

    key: str
    name: str
    steps: tuple[Step, ...]


WAYS = (
    Way(
        "ios",
        "iPhone or iPad",
        (
            Step(
                "Fetch the certificate in the phone’s own browser and allow it.",
                "Fetch it",
                ("This site wants to load", "a profile.", "Allow"),
                2,
            ),
            Step(
                "Open Settings. Near the top stands “Profile Downloaded”. Tap it, then Install, with your passcode.",
                "Settings",
                ("Profile Downloaded", "Airplane mode", "Network"),
                0,
            ),
            Step(
                "Go to General, About, and down to Certificate Trust Settings.",
                "About",
                ("Name", "Version", "Certificate Trust Settings"),
                2,
            ),
            Step(
                "Switch it on for “Studbay on …” and confirm.",
                "Certificate trust",
                ("Full trust for", "Studbay on …"),
                1,
                switch=True,
            ),
        ),
    ),
    Way(
        "android",
        "Android phone",
        (
            Step(
                "Fetch the certificate. The phone keeps it in its downloads.",
                "Fetch it",
                ("studbay-authority.crt", "Download"),
                1,
            ),
            Step(
                "Open Settings and search for “CA certificate”; it is under security, credentials, install.",
                "Search settings",
                ("CA certificate", "Credentials", "Security"),
                0,
            ),
            Step(
                "Choose CA certificate. The phone warns that others could read along: that is true of a stranger’s, "
                "this one is yours. Go on.",
                "Install",
                ("CA certificate", "VPN certificate", "Network certificate"),
                0,
            ),
            Step("Pick the file you fetched.", "Downloads", ("studbay-authority.crt", "other files"), 0),
        ),
    ),
    Way(
        "desk",
        "Laptop or desk",
        (
            Step(
                "Fetch the certificate, open the browser’s settings and search for “certificates”.",
                "Settings",
                ("Search: certificates", "Manage certificates"),
                1,
            ),
            Step(
                "Import it under authorities, and let it vouch for websites.",
                "Authorities",
                ("Import", "Trust for websites"),
                1,
                switch=True,
            ),
        ),
    ),
)


def way_for(agent: str) -> str:
    """The key of the way that fits the phone that asks, told by its User-Agent; the first when it does not say."""
    told = agent.casefold()
    if "android" in told:
        return "android"
    if any(word in told for word in ("iphone", "ipad")):
        return "ios"
    return "desk" if any(word in told for word in ("windows", "macintosh", "x11", "linux")) else "ios"
