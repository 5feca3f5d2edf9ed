"""What can be told about the scripts and styles without a browser."""

import re
from pathlib import Path

import pytest

from generator.drawing.looks import OKABE_ITO

SOURCE = Path(__file__).parents[2] / "site_src"
SCRIPTS = sorted((SOURCE / "assets" / "js").rglob("*.js"))
STYLES = sorted((SOURCE / "assets" / "css").glob("*.css"))
ONE_IDEA = 300  # lines a script may have, as for modules: those of the engine mirror them; aim at 150
LIBRARIES = {"assets/js/seek/a-minisearch.js"}  # not ours; its `fetch` is a method of a map
# scripts that ask this site for a file of its own
ASKING = {"assets/js/page/offline.js", "assets/js/page/picture.js", "assets/js/page/standing.js"}

# Ways to turn a string into markup or code. Data of the catalogue and text of the
# address must never take one.
UNSAFE = re.compile(
    r"innerHTML|outerHTML|insertAdjacentHTML|document\.write|\beval\(|new "
    r"Function|createContextualFragment|DOMParser|srcdoc|setHTML"
)
OUTSIDE = re.compile(r"(?:https?:)?//[a-z0-9.-]+\.[a-z]{2,}", re.IGNORECASE)
NAMESPACES = ("http://www.w3.org/2000/svg",)


def named(path):
    return path.relative_to(SOURCE).as_posix()


def test_there_are_scripts_and_styles_to_look_at():
    assert len(SCRIPTS) > 10 and len(STYLES) >= 5


@pytest.mark.parametrize("path", SCRIPTS, ids=named)
def test_a_script_is_short_strict_classic_and_never_parses_markup(path):
    text = path.read_text()
    assert len(text.splitlines()) <= ONE_IDEA
    assert text.startswith('"use strict";')
    assert not UNSAFE.search(text)
    assert not re.search(r"^\s*(import|export)\b", text, re.MULTILINE)
    assert (
        named(path) in LIBRARIES or ("fetch(" in text) == (named(path) in ASKING)
    ) and "XMLHttpRequest" not in text


@pytest.mark.parametrize(
    "path",
    [p for p in SOURCE.rglob("*") if p.suffix in {".js", ".css", ".html", ".j2", ".svg", ".md"}],
    ids=named,
)
def test_nothing_asks_for_anything_outside(path):
    text = path.read_text()
    for namespace in NAMESPACES:
        text = text.replace(namespace, "")
    assert OUTSIDE.findall(text) == []


def palette(scheme: str) -> dict[str, str]:
    """The colours of a scheme, by name without the prefix."""
    text = (SOURCE / "assets/css/palette.css").read_text()
    block = re.search(rf'^\[data-md-color-scheme="{scheme}"\] {{(.*?)^}}', text, re.MULTILINE | re.DOTALL)[1]
    root = re.search(r"^:root {(.*?)^}", text, re.MULTILINE | re.DOTALL)[1]
    return dict(re.findall(r"--rf-([a-z-]+): (#[0-9a-f]{6});", root + block))


def luminance(colour: str) -> float:
    """Relative luminance, WCAG 2.2, "relative luminance" in its glossary."""
    parts = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, two: str) -> float:
    """Contrast ratio, WCAG 2.2, "contrast ratio" in its glossary."""
    high, low = sorted((luminance(one), luminance(two)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def mixed(colour: str, share: float, ground: str) -> str:
    """What `color-mix(in srgb, colour share, ground)` gives."""
    pairs = [(int(colour[p : p + 2], 16), int(ground[p : p + 2], 16)) for p in (1, 3, 5)]
    return "#" + "".join(f"{round(a * share + b * (1 - share)):02x}" for a, b in pairs)


def test_the_contrast_formula():
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.01)


VERDICTS = ("safe", "lossy", "no-signal", "dangerous", "does-not-fit")


@pytest.mark.parametrize("scheme, tint", [("default", 0.15), ("slate", 0.20)])
def test_text_and_controls_have_contrast(scheme, tint):
    """WCAG 2.2 AA: 4.5 : 1 for text (1.4.3), 3 : 1 for edges of controls (1.4.11)."""
    colours = palette(scheme)
    for ground in ("paper", "sheet"):
        for text in ("ink", "quiet", "link"):
            assert contrast(colours[text], colours[ground]) >= 4.5, f"{text} on {ground}"
        assert contrast(colours["edge"], colours[ground]) >= 3, f"edge on {ground}"
    assert contrast(colours["on-link"], colours["link"]) >= 4.5
    assert f"--rf-tint: {tint:.0%};" in (SOURCE / "assets/css/palette.css").read_text()
    for verdict in VERDICTS:
        assert contrast(colours["ink"], mixed(colours[verdict], tint, colours["sheet"])) >= 4.5, (
            f"ink on the {verdict} banner"
        )


def test_verdict_colours_are_those_of_the_drawings():
    colours = palette("default")
    assert [colours[verdict] for verdict in VERDICTS] == [
        OKABE_ITO[name] for name in ("bluish green", "orange", "sky blue", "vermillion", "reddish purple")
    ]
