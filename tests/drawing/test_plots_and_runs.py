"""Curves, bars and runs: all inside the picture, no text on another, what dominates marked and named."""

import pytest

from generator.drawing import draw_scene, plots, runs
from generator.drawing.scene import SMALLEST

from . import seen

CURVES = [
    plots.Curve("coaxial lead with a heavy braid", tuple((10 ** (i / 10), -(i**2) / 40) for i in range(25))),
    plots.Curve("another of more", tuple((10 ** (i / 10), -(i**2) / 20) for i in range(25))),
]
BARS = [
    plots.Bar("Current through the screen", 44, 12, True),
    plots.Bar("Picked up by the pair", -90, -200),
    plots.Bar("Off the scale", 90),
]
LAID = runs.Laid(
    "A player into a mixer",
    "the player with a long name",
    "the mixer",
    ("earthed", "earthed"),
    "5 m of thin coaxial lead",
    False,
    True,
    ("two-core lamp lead, lamps on a dimmer, 3 cm away", "heavy round feeder, 1 m away"),
    (False, True),
    ("a phone at 30 cm",),
    "10 turns of spare lead",
    "chassis",
    "current through the screen",
)


def pictures():
    yield plots.plot(
        "Treble against length", "A player", "metres", "dB", (1, 10, 100, 300), (-12, -6, 0), CURVES
    )
    yield plots.bars("Each way in", "before and after", "noise", BARS)
    for powered in (
        ("earthed", "earthed"),
        ("insulated", "earthed"),
        ("battery", "insulated"),
        ("battery", "battery"),
    ):
        for closed in (True, False):
            for marked in ("chassis", "induced", "electric", "spare", ""):
                yield runs.laid(
                    runs.Laid(**{**LAID.__dict__, "powered": powered, "closed": closed, "marked": marked})
                )


@pytest.mark.parametrize("scene", list(pictures()), ids=str)
def test_words_are_inside_large_enough_and_not_on_each_other(scene):
    words = seen.all_words(draw_scene(scene, prefix="p"))
    for one in words:
        assert 0 <= one.left and one.right <= scene.width and 0 <= one.top and one.bottom <= scene.height, (
            one.words
        )
        assert one.size >= SMALLEST
    for i, one in enumerate(words):
        for other in words[i + 1 :]:
            assert not one.overlaps(other), f"{one.words} on {other.words}"


def test_a_curve_is_cut_where_it_leaves_the_frame():
    inside = plots._clipped(CURVES[1].points, (1, 300), (-12, 0))
    assert inside[-1][1] == pytest.approx(-12) and all(-12 <= y <= 0 for _, y in inside)
    assert inside[0] == CURVES[1].points[0]


def test_what_dominates_is_marked_named_and_told():
    source = draw_scene(plots.bars("Each way in", "x", "noise", BARS), prefix="p")
    assert "(most)" in source and "rf-marked" in source
    assert "Current through the screen +44 dB, +12 dB after" in source


def test_a_run_is_told_in_words():
    desc = runs.laid(LAID).desc
    assert (
        "Both are earthed, and the loop through both earths is closed." in desc
        and "Marked: current through the screen" in desc
    )
    assert "a phone at 30 cm" in desc and "two-core lamp lead" in desc
