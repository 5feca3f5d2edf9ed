import pytest

from generator.drawing import mark
from generator.drawing.looks import LOOKS, OKABE_ITO, PANEL, PANEL_INK
from generator.drawing.marks import WORDS, shape
from generator.drawing.scene import Circle, Path, Rect

from . import seen

# Okabe and Ito, "Color Universal Design" (2008), the palette's RGB values
PUBLISHED = {
    "orange": (230, 159, 0),
    "sky blue": (86, 180, 233),
    "bluish green": (0, 158, 115),
    "vermillion": (213, 94, 0),
    "reddish purple": (204, 121, 167),
    "blue": (0, 114, 178),
}


def luminance(colour):
    """Relative luminance, WCAG 2.1."""
    channels = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one, two):
    light, dark = sorted((luminance(one), luminance(two)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def mixed(ink, ground, share):
    """The colour seen where ink covers a share of the ground."""
    return "#" + "".join(
        f"{round(share * int(ink[i : i + 2], 16) + (1 - share) * int(ground[i : i + 2], 16)):02x}"
        for i in (1, 3, 5)
    )


def test_the_palette_is_the_published_one():
    assert {
        name: tuple(int(colour[i : i + 2], 16) for i in (1, 3, 5)) for name, colour in OKABE_ITO.items()
    } == PUBLISHED


@pytest.mark.parametrize("verdict", WORDS)
def test_signs_on_marks_are_readable(verdict):
    assert contrast(LOOKS["glyph"]["stroke"], LOOKS[verdict.replace(" ", "-")]["fill"]) >= 4.5


@pytest.mark.parametrize(
    ("ink", "ground"), [(PANEL_INK, PANEL), (PANEL_INK, "#ffffff"), ("#e2e4e9", "#1e2129")]
)
def test_words_are_readable_on_light_and_dark(ink, ground):
    assert contrast(ink, ground) >= 4.5
    assert contrast(mixed(ink, ground, float(LOOKS["quiet"]["fill-opacity"])), ground) >= 4.5
    tinted = mixed(ink, ground, float(LOOKS["metal"]["fill-opacity"]))  # names stand on tinted metal
    assert contrast(ink, tinted) >= 4.5


def test_every_verdict_has_a_silhouette_of_its_own():
    outlines = [
        tuple(repr(item).split("look=")[0] for item in shape(verdict, 0, 0).items if item.look != "glyph")
        for verdict in WORDS
    ]
    assert len(set(outlines)) == len(WORDS) == 5
    kinds = [
        {type(item) for item in shape(verdict, 0, 0).items if item.look != "glyph"}
        for verdict in ("safe", "no signal", "dangerous")
    ]
    assert kinds == [{Circle}, {Rect}, {Path}]


@pytest.mark.parametrize("verdict", WORDS)
def test_the_word_stands_beside_the_mark_and_fits(verdict):
    drawn = mark(verdict, "m", standalone=True)
    (word,) = seen.all_words(drawn)
    assert word.words == verdict
    assert word.left > 28 and word.right <= float(seen.root(drawn).get("width"))


def test_a_word_that_is_no_verdict_is_refused():
    with pytest.raises(ValueError) as caught:
        mark("fine", "m")
    assert (
        str(caught.value)
        == "'fine' is not a verdict; it is one of safe, lossy, no signal, dangerous, does not fit"
    )
