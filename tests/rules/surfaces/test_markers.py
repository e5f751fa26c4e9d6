"""The hues of services, and what is buried only to be found."""

from colorsys import rgb_to_hls
from pathlib import Path
from re import findall

from webapp.surfaces.rules.elevation import Facts, draw
from webapp.surfaces.rules.face import Face, Run
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.legend import legend
from webapp.surfaces.rules.lines import run_letters, run_pen

INCH = 25_400_000
TRENCH = Face("TR", "Trench", SurfaceKind.TRENCH, 696 * INCH, 30 * INCH, "house", "garage", None, None, "in")
TAPE = Run(1, "TAPE", "Tape", "other", ((8 * INCH, 12 * INCH), (680 * INCH, 12 * INCH)), False, "warning tape")
WIRE = Run(2, "WIRE", "Wire", "other", ((8 * INCH, 20 * INCH), (680 * INCH, 20 * INCH)), False, "tracer wire")
FEED = Run(3, "FDR", "Feeder", "electric", ((8 * INCH, 24 * INCH), (680 * INCH, 24 * INCH)), False, "feeder")


def test_the_style_sheet_draws_each_letter_in_a_hue_of_its_colour():
    """APWA Uniform Color Code: red electric, orange communication, blue water, green drain, yellow gas, purple.

    It names colours and gives no numbers; the ranges of hue in degrees (HSL, CSS Color Module Level 4, section 7) are
    ours: what is commonly called so, no source.
    """
    tokens = (Path(__file__).parents[3] / "static/css/tokens.css").read_text()
    ranges = {"e": (340, 375), "t": (15, 40), "w": (195, 225), "d": (140, 175), "g-line": (40, 60), "a": (275, 320)}
    for name, (low, high) in ranges.items():
        for value in findall(rf"--{name}: #([0-9a-f]{{6}})", tokens):
            red, green, blue = (int(value[at : at + 2], 16) / 255 for at in (0, 2, 4))
            hue = 360 * rgb_to_hls(red, green, blue)[0]
            assert low <= hue <= high or low <= hue + 360 <= high, (name, value, hue)


def test_tape_and_tracer_have_a_line_of_their_own_without_a_service_colour():
    assert (run_pen(TAPE), run_letters(TAPE)) == ("l2 ph", ("WT", "halo"))
    assert (run_pen(WIRE), run_letters(WIRE)) == ("l2 ctr", ("TW", "halo"))
    assert (run_pen(FEED), run_letters(FEED)) == ("e", ("E", "e"))
    drawn = draw(Facts(TRENCH, runs=(TAPE, WIRE, FEED)))
    words = [text.words for layer in drawn.layers for text in layer.texts]
    assert {"WT", "TW", "E"} <= set(words)
    signs = [sign.words for sign in legend(Facts(TRENCH, runs=(TAPE, WIRE, FEED)))]
    assert signs == ["E electric", "WT warning tape", "TW tracer wire"]
