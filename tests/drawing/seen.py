"""What a reader of an SVG file sees, taken from the parsed XML alone: texts with their boxes, circles, titles."""

import re
import xml.etree.ElementTree as ET
from dataclasses import dataclass
from math import cos, radians, sin

from generator.drawing import text

SVG = "{http://www.w3.org/2000/svg}"


@dataclass(frozen=True)
class Words:
    words: str
    size: float
    left: float
    top: float
    right: float
    bottom: float

    def overlaps(self, other):
        return self.left < other.right and other.left < self.right and self.top < other.bottom and other.top < self.bottom


def root(source):
    return ET.fromstring(source)


def walk(element, matrix=(1, 0, 0, 1, 0, 0), titles=()):
    """Every element with its transformation and the titles of the groups around it."""
    moved = _times(matrix, element.get("transform", ""))
    title = element.find(f"{SVG}title")
    titles = (*titles, title.text) if title is not None else titles
    yield element, moved, titles
    for child in element:
        yield from walk(child, moved, titles)


def _times(matrix, transform):
    for part in transform.replace(")", ")|").split("|"):
        name, _, values = part.strip().rstrip(")").partition("(")
        numbers = [float(value) for value in values.split()]
        if name == "translate":
            matrix = _product(matrix, (1, 0, 0, 1, *numbers))
        elif name == "rotate":
            c, s = cos(radians(numbers[0])), sin(radians(numbers[0]))
            matrix = _product(matrix, (c, s, -s, c, 0, 0))
        elif name == "scale":
            matrix = _product(matrix, (numbers[0], 0, 0, numbers[-1], 0, 0))
        else:
            assert not name, f"transform {name} is not known here"
    return matrix


def _product(m, n):
    a, b, c, d, e, f = m
    g, h, i, j, k, o = n
    return a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * o + e, b * k + d * o + f


def place(matrix, x, y):
    a, b, c, d, e, f = matrix
    return a * x + c * y + e, b * x + d * y + f


def all_words(source):
    """Every text as it stands on the canvas, measured with the width table."""
    found = []
    for element, matrix, _ in walk(root(source)):
        if element.tag != f"{SVG}text":
            continue
        assert matrix[:4] == (1, 0, 0, 1), "text stands upright"
        size = float(element.get("font-size"))
        pieces = [(element.text or "", element.get("font-weight", "normal"))]
        pieces += [(span.text or "", span.get("font-weight", "normal")) for span in element]
        wide = sum(text.width(words, size, weight) for words, weight in pieces)
        x, y = place(matrix, float(element.get("x")), float(element.get("y")))
        left = x - wide * {"start": 0, "middle": 0.5, "end": 1}[element.get("text-anchor")]
        found.append(Words("".join(words for words, _ in pieces), size, left, y - 0.76 * size, left + wide, y + 0.24 * size))
    return found


def circles(source, title):
    """Centre and radius of the circles in the group with this title."""
    return [(*place(matrix, float(e.get("cx")), float(e.get("cy"))), float(e.get("r")))
            for e, matrix, titles in walk(root(source)) if e.tag == f"{SVG}circle" and title in titles]


def outlines(source, *, title=None, look=None):
    """The boxes around rectangles and paths of straight lines in a group with this title, or of this look, as (left, top, right, bottom)."""
    found = []
    for e, matrix, around in walk(root(source)):
        if title is not None and title not in around or look is not None and e.get("class") != look:
            continue
        if e.tag == f"{SVG}rect":
            x, y, wide, high = (float(e.get(name)) for name in ("x", "y", "width", "height"))
            spots = [place(matrix, x, y), place(matrix, x + wide, y + high)]
        elif e.tag == f"{SVG}path":
            numbers = [float(number) for number in re.findall(r"-?\d+\.?\d*", e.get("d"))]
            spots = [place(matrix, x, y) for x, y in zip(numbers[::2], numbers[1::2])]
        elif e.tag in (f"{SVG}polygon", f"{SVG}polyline"):
            spots = [place(matrix, *(float(number) for number in spot.split(","))) for spot in e.get("points").split()]
        else:
            continue
        xs, ys = zip(*spots)
        found.append((min(xs), min(ys), max(xs), max(ys)))
    return found


def classes(source):
    """How often each look occurs."""
    counts = {}
    for element, _, _ in walk(root(source)):
        name = element.get("class", "")
        counts[name] = counts.get(name, 0) + 1
    return counts


def titles(source):
    return [element.text for element in root(source).iter(f"{SVG}title")]


def described(source):
    return root(source).find(f"{SVG}desc").text
