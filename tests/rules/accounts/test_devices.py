"""Which phone or laptop signed in. The samples are made up in the form of RFC 9110, 10.1.5."""

import pytest

from webapp.accounts.rules.devices import device_words
from webapp.accounts.rules.ways import local_path


@pytest.mark.parametrize(
    ("user_agent", "said"),
    [
        ("Reader/5.0 (Slate 14; Mobile; rv:128.0) Engine/128.0 Window/128.0", "Phone, Slate 14"),
        ("Reader/5.0 (X11; Kernel x86_64; rv:128.0) Engine/20100101", "Laptop or desk, Kernel x86_64"),
        ("Reader/5.0 (Slate 14; Tablet; rv:68.0) Engine/68.0", "Tablet, Slate 14"),
        ("Reader/5.0 (X11; U) Engine/1", "Laptop or desk"),
        ("fetch/8.5.0", "A program, fetch"),
        ("", "A program without a name"),
        ("<script>alert(1)</script>", "A program without a name"),
    ],
)
def test_a_device_is_told_in_plain_words(user_agent, said):
    assert device_words(user_agent) == said


def test_a_long_name_still_fits_the_list():
    assert len(device_words(f"A/1 ({'x' * 5000})")) < 120
    assert len(device_words("x" * 5000)) < 120


@pytest.mark.parametrize("path", ["/builds/bindery/today", "/", "/what-stops?surface=E#frees", "/a//b"])
def test_a_path_of_our_own_is_gone_back_to(path):
    assert local_path(path) == path


@pytest.mark.parametrize(
    "elsewhere",
    [
        "//elsewhere.example",
        "/\\elsewhere.example",
        "\\\\elsewhere.example",
        "https://elsewhere.example/",
        "elsewhere.example",
        "/\t/elsewhere.example",
        "/ok\r\nSet-Cookie: a=b",
        "javascript:alert(1)",
        "",
        "/" + "a" * 3000,
    ],
)
def test_no_sign_in_leads_to_another_server(elsewhere):
    """WHATWG URL Standard, 4.4: backslash counts as slash, tab and line ends are removed before parsing."""
    assert local_path(elsewhere) == "/"
