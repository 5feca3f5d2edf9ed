"""A scene written as SVG. The only module that knows svgwrite.

Numbers are rounded and every id starts with the caller's prefix, so two builds are equal byte for byte and
many pictures can stand on one page. Nothing is styled inline: looks become classes with presentation
attributes. Only a picture that is a file of its own holds a style sheet, a few colours that follow the
reader's dark mode; a file shown as an image is out of reach of a page's policy.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

import svgwrite
from svgwrite.base import Desc, Title

from generator.drawing import looks, scene

FAMILY = "Helvetica, Arial, 'Liberation Sans', Roboto, sans-serif"
CORNER = 10
# of SVG 1, written by the library: no picture uses them and no reader asks
UNASKED = r"xmlns:\w+|baseProfile|version"


def write(picture: scene.Scene, prefix: str, standalone: bool = True) -> str:
    """SVG text of a scene. `prefix` starts every id; `standalone` adds the namespace a file
    needs, a ground (unless the scene is bare), its ink, and both for the dark. What nothing in
    the scene takes is left out."""
    if not re.fullmatch(r"[A-Za-z][\w-]*", prefix):
        raise ValueError(f"'{prefix}' cannot start an id: use a letter, then letters, digits, - or _")
    # debug off: svgwrite's validator does not know role and aria-*
    drawing = svgwrite.Drawing(debug=False, size=(number(picture.width), number(picture.height)))
    root = drawing
    root.attribs.update(
        {
            "viewBox": f"0 0 {number(picture.width)} {number(picture.height)}",
            "class": f"{looks.PREFIX}drawing",
            "role": "img",
            "aria-labelledby": f"{prefix}-title {prefix}-desc",
        }
        | (
            {"font-family": FAMILY}
            if any(isinstance(item, scene.Text) for item in _all(picture.items))
            else {}
        )
    )
    root.elements.remove(drawing.defs)
    root.elements += [
        _named(Title(picture.title), f"{prefix}-title"),
        _named(Desc(picture.desc), f"{prefix}-desc"),
    ]
    ground = {}
    if standalone:
        root.attribs["color"] = looks.PANEL_INK
        ground = looks.ON_PANEL
        root.elements.append(
            drawing.style(
                _dark({item.look for item in _all(picture.items)} | (set() if picture.bare else {"panel"}))
            )
        )
        if not picture.bare:
            root.add(
                _element(
                    drawing,
                    scene.Rect(0.5, 0.5, picture.width - 1, picture.height - 1, "panel", CORNER),
                    ground,
                )
            )
    for item in picture.items:
        root.add(_element(drawing, item, ground))
    start, end, rest = drawing.tostring().partition(">")
    return re.sub(rf' (?:{UNASKED if standalone else f"{UNASKED}|xmlns"})="[^"]*"', "", start) + end + rest


def number(value: float) -> str:
    """A length to a tenth of a pixel, without trailing zeros."""
    return f"{round(value, 1) + 0:.1f}".removesuffix(".0")


def _all(items: Iterable[scene.Item]) -> Iterator[scene.Item]:
    """The items and those within groups, without the groups."""
    for item in items:
        if isinstance(item, scene.Group):
            yield from _all(item.items)
        else:
            yield item


def _dark(used: set[str]) -> str:
    """The colours for who reads in the dark, of the looks used."""
    return (
        f"@media (prefers-color-scheme: dark) {{ svg {{ color: {looks.DARK['ink']} }} "
        + " ".join(
            f".{looks.PREFIX}{name} {{ {attribute}: {looks.DARK['panel']} }}"
            for name, attribute in looks.GROUND.items()
            if name in used
        )
        + " }"
    )


def _named(element, name: str):
    element.xml.set("id", name)
    return element


def _element(drawing: svgwrite.Drawing, item: scene.Item, ground: dict[str, dict[str, str]]):
    if isinstance(item, scene.Group):
        made = drawing.g()
        moves = [f"translate({number(item.x)} {number(item.y)})"] if item.x or item.y else []
        moves += [f"rotate({number(item.turn)})"] if item.turn else []
        moves += [f"scale({item.scale:g})"] if item.scale != 1 else []
        if moves:
            made.attribs["transform"] = " ".join(moves)
        if item.name:
            made.attribs |= {"class": f"{looks.PREFIX}contact", "data-contact": item.name}
        if item.slot:
            made.attribs["data-slot"] = " ".join(
                value if isinstance(value, str) else number(value) for value in item.slot
            )
        if item.title:
            made.elements.append(Title(item.title))
        for inner in item.items:
            made.add(_element(drawing, inner, ground))
        return made
    made = _shape(drawing, item)
    made.attribs.update(looks.LOOKS[item.look] | ground.get(item.look, {}))
    made.attribs["class"] = looks.PREFIX + item.look
    return made


def _shape(drawing: svgwrite.Drawing, item: scene.Item):
    match item:
        case scene.Line():
            made, values = drawing.line(), {"x1": item.x1, "y1": item.y1, "x2": item.x2, "y2": item.y2}
        case scene.Circle():
            made, values = drawing.circle(), {"cx": item.x, "cy": item.y, "r": item.radius}
        case scene.Rect():
            made, values = (
                drawing.rect(),
                {"x": item.x, "y": item.y, "width": item.width, "height": item.height},
            )
            values |= {"rx": item.corner} if item.corner else {}
        case scene.Path():
            steps = " ".join(" ".join([command, *map(number, values)]) for command, *values in item.steps)
            return drawing.path(d=steps)
        case scene.Text():
            made, values = (
                drawing.text("" if item.strong else item.words),
                {"x": item.x, "y": item.y, "font-size": item.size},
            )
            if item.strong:
                made.add(drawing.tspan(item.strong, font_weight="bold"))
                made.add(drawing.tspan(" " + item.words if item.words else ""))
            made.attribs["text-anchor"] = item.anchor
            if item.weight != "normal":
                made.attribs["font-weight"] = item.weight
    for name in ("x", "y", "insert"):
        made.attribs.pop(name, None)
    made.attribs.update({name: number(value) for name, value in values.items()})
    return made
