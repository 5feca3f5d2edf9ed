"""Where the contacts are on a drawing, so that one can be tapped: read from the drawing itself, for that
is what is looked at."""

from __future__ import annotations

import re
from xml.etree import ElementTree as xml

SVG = "{http://www.w3.org/2000/svg}"
NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
Matrix = tuple[float, float, float, float, float, float]  # x' = a x + c y + e, y' = b x + d y + f
SAME: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


def spots(svg: str) -> dict[str, tuple[float, float]]:
    """Contact -> where its middle is, in percent of the drawing's width and height."""
    root = xml.fromstring(svg)
    _, _, width, height = map(float, root.get("viewBox", "0 0 1 1").split())
    return {
        contact: (round(100 * x / width, 1), round(100 * y / height, 1))
        for contact, (x, y) in _found(root, SAME)
    }


def _found(element: xml.Element, place: Matrix):
    place = _moved(place, element.get("transform", ""))
    title = (element.findtext(f"{SVG}title") or "") if element.tag == f"{SVG}g" else ""
    contact = element.get("data-contact") or (
        title.removeprefix("band ") if title.startswith("band ") else ""
    )
    if contact:
        middle = next(filter(None, map(_middle, element)), None)
        if middle:
            yield (
                contact,
                (
                    place[0] * middle[0] + place[2] * middle[1] + place[4],
                    place[1] * middle[0] + place[3] * middle[1] + place[5],
                ),
            )
        return
    for child in element:
        yield from _found(child, place)


def _moved(place: Matrix, transform: str) -> Matrix:
    """A place after the moves and quarter turns the drawings use."""
    a, b, c, d, e, f = place
    for name, inside in re.findall(r"(\w+)\(([^)]*)\)", transform):
        numbers = [float(number) for number in NUMBER.findall(inside)]
        if name == "translate":
            x, y = (*numbers, 0.0)[:2]
            e, f = a * x + c * y + e, b * x + d * y + f
        elif name == "rotate" and numbers == [90.0]:
            a, b, c, d = c, d, -a, -b
    return a, b, c, d, e, f


def _middle(shape: xml.Element) -> tuple[float, float] | None:
    """The middle of a circle, a box or an outline."""
    kind, number = shape.tag.removeprefix(SVG), lambda name: float(shape.get(name, "0"))
    if kind == "circle":
        return number("cx"), number("cy")
    if kind == "rect":
        return number("x") + number("width") / 2, number("y") + number("height") / 2
    if kind == "path":
        numbers = [float(one) for one in NUMBER.findall(shape.get("d", ""))]
        xs, ys = numbers[::2], numbers[1::2]
        return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
    return None
