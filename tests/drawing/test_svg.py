import ast
import re
from dataclasses import replace
from pathlib import Path

import pytest

import generator.drawing
from generator.drawing import svg
from generator.drawing.scene import Circle, Group, Line, Path as Trace, Rect, Scene, Text

from . import seen

PICTURE = Scene(
    320,
    50,
    "A < B",
    "All & sundry",
    (
        Group((Line(0, 0, 1.23456, 2), Rect(1, 2, 3, 4, "metal", 3)), 3, 4, "group", 90),
        Circle(5, 5, 2, "pin"),
        Trace((("M", 0, 0), ("L", -0.04, 7 / 3)), "core-2"),
        Text(4, 20, "hot", strong="2"),
    ),
)


def test_numbers_are_rounded_and_zero_has_no_sign():
    assert (svg.number(1.23456), svg.number(2.0), svg.number(-0.04), svg.number(12)) == (
        "1.2",
        "2",
        "0",
        "12",
    )
    assert 'd="M 0 0 L 0 2.3"' in svg.write(PICTURE, "p")


def test_title_and_description_are_named_and_pointed_at():
    root = seen.root(svg.write(PICTURE, "one"))
    assert root.get("role") == "img"
    by_id = {element.get("id"): element.text for element in root.iter() if element.get("id")}
    assert [by_id[name] for name in root.get("aria-labelledby").split()] == ["A < B", "All & sundry"]


def test_nothing_a_strict_content_policy_refuses():
    root = seen.root(
        svg.write(PICTURE, "p", standalone=False).replace("<svg", f'<svg xmlns="{seen.SVG[1:-1]}"', 1)
    )
    for element in root.iter():
        assert "style" not in element.attrib
        assert element.tag not in (
            f"{seen.SVG}style",
            f"{seen.SVG}script",
            f"{seen.SVG}foreignObject",
            f"{seen.SVG}image",
        )
        assert not any(name.startswith("on") or name.endswith("href") for name in element.attrib)


def test_inline_has_no_ground_and_takes_the_pages_ink():
    root = seen.root(
        svg.write(PICTURE, "p", standalone=False).replace("<svg", f'<svg xmlns="{seen.SVG[1:-1]}"', 1)
    )
    assert root.get("color") is None
    assert "rf-panel" not in [element.get("class") for element in root.iter()]


def test_a_file_brings_its_own_ground_and_ink():
    root = seen.root(svg.write(PICTURE, "p"))
    assert root.get("color") and seen.classes(svg.write(PICTURE, "p"))["rf-panel"] == 1


def test_a_file_follows_dark_mode_by_colours_alone():
    """Shown as an image it is out of reach of the page's policy and of its style sheets, so the
    rules stand in the file."""
    root = seen.root(
        svg.write(replace(PICTURE, items=(*PICTURE.items, Group((Line(0, 0, 1, 1, "gap"),)))), "p")
    )
    [style] = [element.text for element in root.iter(f"{seen.SVG}style")]
    assert style.startswith("@media (prefers-color-scheme: dark) { svg { color: #")
    assert set(re.findall(r"([a-z-]+): #[0-9a-f]{6}", style)) == {"color", "fill", "stroke"}


def test_a_file_names_no_colour_font_or_vocabulary_that_nothing_in_it_takes():
    whole, wordless = (
        svg.write(PICTURE, "p"),
        svg.write(Scene(9, 9, "One", "Line", (Line(0, 0, 1, 1, "knock-hair"),), bare=True), "p"),
    )
    assert re.findall(r"\.rf-[\w-]+", whole) == [".rf-panel"] and re.findall(r"\.rf-[\w-]+", wordless) == [
        ".rf-knock-hair"
    ]
    assert "font-family" in whole and "font-family" not in wordless
    assert re.findall(r"xmlns[:\w]*|baseProfile|version", whole + wordless) == ["xmlns", "xmlns"]


@pytest.mark.parametrize("prefix", ["", "1st", "a b", 'x"'])
def test_a_prefix_that_cannot_start_an_id_is_refused(prefix):
    with pytest.raises(ValueError) as caught:
        svg.write(PICTURE, prefix)
    assert str(caught.value) == f"'{prefix}' cannot start an id: use a letter, then letters, digits, - or _"


def test_only_one_module_knows_svgwrite():
    knowing = []
    for path in Path(generator.drawing.__file__).parent.glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            names = (
                [alias.name for alias in node.names]
                if isinstance(node, ast.Import)
                else [getattr(node, "module", None)]
            )
            if any(name and name.split(".")[0] == "svgwrite" for name in names):
                knowing.append(path.name)
    assert set(knowing) == {"svg.py"}
