"""How wide a line of text is: the one width table every drawing measures with.

Advance widths in thousandths of the type size, read once from the `hmtx` table of DejaVu Sans 2.37 (a
published open font, https://dejavu-fonts.github.io). It is wider than Arial, Helvetica, Roboto and Segoe UI,
so a line that fits by this table fits in whichever of those a browser picks.
"""

from __future__ import annotations

import re

from generator.drawing.scene import Box, Text

REGULAR = {
    275: "'",
    278: "ijl",
    295: "IJ",
    318: " \xa0,.·’",
    337: "/:;\\|",
    352: "f",
    361: "-",
    390: "()[]",
    392: "t",
    401: "!",
    411: "r",
    460: '"',
    500: "*_`–°",
    518: "“”",
    521: "s",
    525: "z",
    531: "?",
    550: "c",
    557: "L",
    575: "F",
    579: "k",
    592: "vxy",
    603: "P",
    611: "TY",
    612: "oö",
    613: "aä",
    615: "eé",
    630: "ß",
    632: "E",
    634: "hnuü",
    635: "Sbdgpq",
    636: "$0123456789{}µ",
    637: "√",
    656: "K",
    684: "AV",
    685: "XZ",
    686: "B",
    695: "R",
    698: "C",
    732: "U",
    748: "N",
    752: "H",
    764: "Ω",
    770: "D",
    775: "G",
    780: "&",
    787: "OQ",
    818: "w",
    838: "#+<=>^~±→×−≥≤",
    863: "M",
    950: "%",
    969: "½",
    974: "m",
    989: "W",
    1000: "@—",
}

BOLD = {
    306: "'",
    343: "ijl",
    348: " \xa0",
    365: "/\\|",
    372: "IJ",
    380: ",.·’",
    400: ":;",
    415: "-",
    435: "f",
    456: "!",
    457: "()[]",
    478: "t",
    493: "r",
    500: "_`–°",
    521: '"',
    523: "*",
    580: "?",
    582: "z",
    593: "c",
    595: "s",
    637: "L",
    645: "x",
    652: "vy",
    657: "“”",
    665: "k",
    667: "√",
    675: "aä",
    678: "eé",
    682: "T",
    683: "EF",
    687: "oö",
    696: "$0123456789",
    712: "hnu{}ü",
    716: "bdgpq",
    719: "ß",
    720: "S",
    724: "Y",
    725: "Z",
    733: "P",
    734: "C",
    736: "µ",
    762: "B",
    770: "R",
    771: "X",
    774: "AV",
    775: "K",
    812: "U",
    821: "G",
    830: "D",
    837: "HN",
    838: "#+<=>^~±→×−≥≤",
    850: "OQΩ",
    872: "&",
    924: "w",
    995: "M",
    1000: "@—",
    1002: "%",
    1035: "½",
    1042: "m",
    1103: "W",
}

# a hyphen after which a line may end: not in `T-power`, `clip-on` or `XLR-4`
_PARTED = re.compile(r"(?<=[^\W\d_]{3})-(?=[^\W\d_]{3})")
# a number and its unit stay on one line
_WITH_UNIT = re.compile(r"(?<=\d) (?=(mm?|V|dB|[kM]?Ω|[numµ]F|ohm)\b)")
UNKNOWN = 1000  # a character not in the table counts as a full em, so it can only be overestimated
ASCENT, DESCENT = 0.76, 0.24  # share of the type size above and below the baseline
LEADING = 1.25

_WIDTHS = {
    weight: {character: width for width, characters in table.items() for character in characters}
    for weight, table in (("normal", REGULAR), ("bold", BOLD))
}


def width(words: str, size: float, weight: str = "normal") -> float:
    """Width of one line in the drawing's units."""
    table = _WIDTHS[weight]
    return sum(table.get(character, UNKNOWN) for character in words) * size / 1000


def pieces(words: str) -> list[str]:
    """The words in pieces that stay whole on a line: between blanks, and after a hyphen that parts two words
    of three letters and more."""
    return _PARTED.sub("-\u200b", _WITH_UNIT.sub("\u00a0", words)).replace(" ", " \u200b").split("\u200b")


def wrap(words: str, size: float, room: float, weight: str = "normal") -> list[str]:
    """The words in as few lines as fit into `room`. Breaks between pieces, and only if it must in one."""
    lines = [""]
    for word in pieces(words):
        if width((lines[-1] + word).rstrip(), size, weight) <= room:
            lines[-1] += word
            continue
        lines.append("")
        for character in word:
            if lines[-1] and width(lines[-1] + character.strip(), size, weight) > room:
                lines.append("")
            lines[-1] += character
    return [line.strip() for line in lines if line.strip()]


def box(text: Text) -> Box:
    """The rectangle a text covers."""
    wide = width(text.words, text.size, text.weight)
    if text.strong:
        wide += width(text.strong, text.size, "bold") + (width(" ", text.size) if text.words else 0)
    left = text.x - wide * {"start": 0, "middle": 0.5, "end": 1}[text.anchor]
    return Box(left, text.y - text.size * ASCENT, left + wide, text.y + text.size * DESCENT)


def block(lines: list[str], x: float, y: float, **how) -> list[Text]:
    """Lines of text one under the other; `y` is the top of the first. The block is `len(lines) *
    size * LEADING` high."""
    size = how.get("size", 13)
    return [
        Text(x, y + size * (ASCENT + 0.12) + number * size * LEADING, line, **how)
        for number, line in enumerate(lines)
    ]
