"""What a reader of an SVG file sees, taken from the parsed XML alone: texts with their
boxes, circles, titles."""

import re
import xml.etree.ElementTree as ET
from dataclasses import dataclass
from itertools import pairwise
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
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )


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
        found.append(
            Words(
                "".join(words for words, _ in pieces),
                size,
                left,
                y - 0.76 * size,
                left + wide,
                y + 0.24 * size,
            )
        )
    return found


def circles(source, title):
    """Centre and radius of the circles in the group with this title."""
    return [
        (*place(matrix, float(e.get("cx")), float(e.get("cy"))), float(e.get("r")))
        for e, matrix, titles in walk(root(source))
        if e.tag == f"{SVG}circle" and title in titles
    ]


def outlines(source, *, title=None, look=None):
    """The boxes around rectangles and paths of straight lines in a group with this title, or of this look, as
    (left, top, right, bottom)."""
    found = []
    for e, matrix, around in walk(root(source)):
        if (title is not None and title not in around) or (look is not None and e.get("class") != look):
            continue
        if e.tag == f"{SVG}rect":
            x, y, wide, high = (float(e.get(name)) for name in ("x", "y", "width", "height"))
            spots = [place(matrix, x, y), place(matrix, x + wide, y + high)]
        elif e.tag == f"{SVG}path":
            numbers = [float(number) for number in re.findall(r"-?\d+\.?\d*", e.get("d"))]
            spots = [place(matrix, x, y) for x, y in zip(numbers[::2], numbers[1::2])]
        elif e.tag in (f"{SVG}polygon", f"{SVG}polyline"):
            spots = [
                place(matrix, *(float(number) for number in spot.split(",")))
                for spot in e.get("points").split()
            ]
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


UNSEEN = {"rf-gap", "rf-marked", "rf-braid"}  # looks that are painted under a line or round it


def strokes(source):
    """Every line that is drawn, as (look, its corners); of curves, spots on them; outlines too."""
    for e, matrix, _ in walk(root(source)):
        look, spots = e.get("class"), []
        if look in UNSEEN or e.get("stroke", "none") == "none" or float(e.get("stroke-opacity", 1)) == 0:
            continue
        if e.tag == f"{SVG}line":
            spots = [[tuple(float(e.get(name)) for name in pair) for pair in (("x1", "y1"), ("x2", "y2"))]]
        elif e.tag == f"{SVG}rect":
            x, y, wide, high = (float(e.get(name)) for name in ("x", "y", "width", "height"))
            spots = [[(x, y), (x + wide, y), (x + wide, y + high), (x, y + high), (x, y)]]
        elif e.tag == f"{SVG}circle":
            x, y, r = (float(e.get(name)) for name in ("cx", "cy", "r"))
            spots = [[(x + r * cos(radians(turn)), y + r * sin(radians(turn))) for turn in range(0, 361, 5)]]
        elif e.tag == f"{SVG}path":
            spots = _path(e.get("d"))
        for line in spots:
            yield look, [place(matrix, *spot) for spot in line]


def _path(steps):
    """The corners of a path's lines; of its curves, spots on them; of its arcs the chord."""
    lines = []
    for command, numbers in re.findall(r"([MLCQAZ])([^MLCQAZ]*)", steps):
        values = [float(value) for value in numbers.split()]
        if command == "M":
            lines.append([tuple(values)])
        elif command == "Z":
            lines[-1].append(lines[-1][0])
        elif command in "LA":
            lines[-1].append(tuple(values[-2:]))
        else:
            ends = [lines[-1][-1], *zip(values[::2], values[1::2])]
            lines[-1] += [_on_curve(ends, number / 16) for number in range(1, 17)]
    return lines


def _on_curve(ends, share):
    while len(ends) > 1:
        ends = [tuple(a + (b - a) * share for a, b in zip(one, two)) for one, two in pairwise(ends)]
    return ends[0]


def _close(line, step=1.5):
    """Spots on a line near to each other."""
    found = []
    for (x1, y1), (x2, y2) in pairwise(line):
        count = max(int(max(abs(x2 - x1), abs(y2 - y1)) / step), 1)
        found += [(x1 + (x2 - x1) * n / count, y1 + (y2 - y1) * n / count) for n in range(count + 1)]
    return found


def struck(source):
    """Words that a line runs through: each with the line's look and the spot. Capitals reach to 0.72 of the
    size above the line they stand on."""
    found = [
        (
            words,
            words.left + 1,
            words.right - 1,
            words.bottom - 0.92 * words.size,
            words.bottom - 0.26 * words.size,
        )
        for words in all_words(source)
    ]
    for look, line in strokes(source):
        xs, ys = zip(*line)
        near = [
            (words, left, right, top, foot)
            for words, left, right, top, foot in found
            if left < max(xs) and min(xs) < right and top < max(ys) and min(ys) < foot
        ]
        spots = _close(line) if near else ()
        for words, left, right, top, foot in near:
            if hit := next(((x, y) for x, y in spots if left < x < right and top < y < foot), None):
                yield words, look, hit
