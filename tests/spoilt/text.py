"""Ways to spoil a file as text: what slips of the hand, editors, merges and bad discs do. Each takes the text
and gives another, or bytes."""

from __future__ import annotations

import re
from random import Random

HIDDEN = (
    "\x00",
    "\x07",
    "\x1b[2J",
    "\x7f",
    "\x85",
    "\u00ad",
    "\u200b",
    "\u200f",
    "\u202e",
    "\u2028",
    "\u2066",
    "\ufeff",
    "\ufffe",
    "\U000e0041",
    "\ud800",
    "\r",
    "\t",
    "\v",
)
SEEN = (
    "é",
    "Ω",
    "١",
    "１",
    "²",
    "½",
    "👩‍🎤",
    "ẞ",
    "e\u0301\u0301\u0301",
    "%",
    "@",
    "`",
    "|",
    ">",
    "!",
    "&",
    "*",
    "#",
    "?",
    "-",
    ",",
    "{",
    "}",
    "[",
    "]",
    "'",
    '"',
    "\\",
)
MARKS = (
    "&a ",
    "*a ",
    "*b",
    "&a *a",
    "!!int ",
    "!!binary ",
    "!!python/object/apply:os.getcwd []",
    "!<tag:yaml.org,2002:map> ",
    "!!set ",
    "! ",
    "!a!b ",
    "<<: ",
    "? ",
    "- ",
    "| ",
    ">- ",
    "|9\n",
)
LINES = (
    "---",
    "...",
    "%YAML 1.3",
    "%YAML 1.1\n---",
    "%TAG ! tag:a,2000:",
    "<<<<<<< HEAD",
    "=======",
    ">>>>>>> other",
    "<<: *a",
    "&a",
    "?",
    "- x",
    "x: y: z",
    "{",
    "[",
    "'",
    '"',
    "#" * 300,
)
NUMBERS = (
    "1e999999999",
    "-1e999999999",
    "1e-999999999",
    "1e99999999999999999999",
    "9" * 400,
    "0." + "0" * 400 + "1",
    "-0",
    "+.5",
    ".",
    "1e",
    "nan",
    "inf",
    "-inf",
    "0x10",
    "0o17",
    "1_000",
    "1:30",
    "1,5",
    "١٢",
    "１２",
    "1e308",
    "1e-320",
    "1..1e999999999",
    "2..1",
    "1 +- 1e9",
    "5/0",
    "1/0.0",
    "0/0",
)


def _bytes(text: str, encoding: str = "utf-8") -> bytes:
    """Half of a pair of surrogates included, though that is no text."""
    return text.encode(encoding, "surrogatepass")


def _line(lines: list[str], chance: Random) -> int:
    return chance.randrange(len(lines))


def flipped(text: str, chance: Random) -> bytes:
    found = bytearray(_bytes(text))
    for _ in range(chance.choice((1, 1, 2, 8))):
        found[chance.randrange(len(found))] ^= 1 << chance.randrange(8)
    return bytes(found)


def line_gone(text: str, chance: Random) -> str:
    lines = text.splitlines(keepends=True)
    del lines[_line(lines, chance)]
    return "".join(lines)


def line_twice(text: str, chance: Random) -> str:
    lines = text.splitlines(keepends=True)
    lines.insert(_line(lines, chance), chance.choice(lines))
    return "".join(lines)


def lines_swapped(text: str, chance: Random) -> str:
    lines = text.splitlines(keepends=True)
    one, other = _line(lines, chance), _line(lines, chance)
    lines[one], lines[other] = lines[other], lines[one]
    return "".join(lines)


def indented(text: str, chance: Random) -> str:
    lines = text.splitlines(keepends=True)
    first = _line(lines, chance)
    for at in range(first, min(len(lines), first + chance.choice((1, 1, 3)))):
        lines[at] = (
            chance.choice((" ", "  ", "    ", "\t", " \t")) + lines[at]
            if chance.random() < 0.7
            else lines[at].lstrip()
        )
    return "".join(lines)


def line_put_in(text: str, chance: Random) -> str:
    lines = text.splitlines(keepends=True)
    lines.insert(_line(lines, chance), chance.choice(("", "  ")) + chance.choice(LINES) + "\n")
    return "".join(lines)


def character(text: str, chance: Random) -> str:
    at = chance.randrange(len(text))
    return text[:at] + chance.choice(HIDDEN + SEEN) + text[at + chance.randrange(2) :]


def mark(text: str, chance: Random) -> str:
    """An anchor, an alias, a tag or another sign of YAML before a value."""
    at = chance.choice([found.end() for found in re.finditer(r"[:,\[{-] ?|^", text, re.MULTILINE)])
    return text[:at] + " " + chance.choice(MARKS) + text[at:]


def _value(text: str, chance: Random) -> tuple[int, int]:
    found = chance.choice(list(re.finditer(r"[\w.+%-][\w .+%/-]*", text)) or [re.match("", text)])
    return found.start(), found.end()


def value_long(text: str, chance: Random) -> str:
    start, end = _value(text, chance)
    piece = chance.choice(
        ("so ", "9", "a", "isn't ", "a-", "'' ", "1 ", "é", "x\n  ", "y\n\n   ", "🎤", '\\"', "a, ")
    )
    long = piece * (chance.choice((201, 700, 5_000, 60_000)) // len(piece))
    quote = chance.choice(("", "'", '"'))
    return text[:start] + quote + long + quote + text[end:]


def key_long(text: str, chance: Random) -> str:
    start = chance.choice([found.start() for found in re.finditer(r"[a-z_]+:", text)] or [0])
    piece = chance.choice(("so ", "a", "isn't ", "a-"))
    return (
        text[:start]
        + chance.choice(("", "? "))
        + piece * (chance.choice((201, 1_000, 20_000)) // len(piece))
        + text[start:]
    )


def deep(text: str, chance: Random) -> str:
    start, end = _value(text, chance)
    opening, closing = chance.choice(
        (
            ("[", "]"),
            ("{a: ", "}"),
            ("- ", ""),
            ("? ", ""),
            ("[[],", "]"),
            ("\n- ", ""),
            ("{? [", "] }"),
            ("!!a ", ""),
            ("&a [", "]"),
        )
    )
    times = chance.choice((3, 30, 39, 41, 100, 3_000))
    return (
        text[:start]
        + opening * times
        + text[start:end]
        + closing * chance.choice((times, times, 0, times - 1))
        + text[end:]
    )


def number(text: str, chance: Random) -> str:
    found = list(re.finditer(r"\d+(\.\d+)?", text)) or [re.match("", text)]
    one = chance.choice(found)
    return text[: one.start()] + chance.choice(NUMBERS) + text[one.end() :]


def cut_off(text: str, chance: Random) -> str:
    return text[: chance.randrange(len(text))]


def begun_late(text: str, chance: Random) -> str:
    return text[chance.randrange(len(text)) :]


def sign_gone(text: str, chance: Random) -> str:
    at = chance.choice([found.start() for found in re.finditer(r"[:{}\[\],'\"\n-]", text)] or [0])
    return text[:at] + text[at + 1 :]


def piece_moved(text: str, chance: Random) -> str:
    one, two, three = sorted(chance.randrange(len(text)) for _ in range(3))
    return text[:one] + text[two:three] + text[one:two] + text[three:]


def as_another(text: str, chance: Random) -> bytes | str:
    """The whole file in another encoding, or once and once again."""
    return chance.choice(
        (
            lambda: _bytes(text, "utf-16"),
            lambda: _bytes(text, "utf-32"),
            lambda: (text + "é").encode("latin-1", "replace"),
            lambda: "\ufeff" + text,
            lambda: "\ufeff\ufeff" + text,
            lambda: "\x89PNG\r\n\x1a\n" + text,
            lambda: f"- {text}",
            lambda: f"[{text}]",
            lambda: text.replace("\n", "\r\n"),
            lambda: text.replace("\n", "\r"),
            lambda: text.replace("\n", "\u2028"),
            lambda: text.replace("\n", "\n\n\n"),
            lambda: text.replace(" ", "\u00a0"),
            lambda: text.replace(": ", ":"),
            lambda: text.upper(),
            lambda: text + text,
            lambda: text * 40,
            lambda: "",
            lambda: "\n" * 5_000,
            lambda: "# only a remark\n",
            lambda: bytes(300),
            lambda: chance.randbytes(600),
            lambda: "x\n",
            lambda: "''\n",
            lambda: "{}\n",
            lambda: "[]\n",
            lambda: "&a [*a]\n",
            lambda: "&a {*a : *a}\n",
        )
    )()


WAYS = (
    flipped,
    line_gone,
    line_twice,
    lines_swapped,
    indented,
    line_put_in,
    character,
    character,
    mark,
    mark,
    value_long,
    value_long,
    key_long,
    deep,
    number,
    number,
    cut_off,
    begun_late,
    sign_gone,
    piece_moved,
    as_another,
)


def spoilt(text: str, chance: Random) -> tuple[bytes, list[str]]:
    """The text spoilt in one to three ways, and which."""
    told, found = [], text
    for _ in range(chance.choice((1, 1, 1, 2, 3))):
        if not isinstance(found, str) or not found:
            break
        way = chance.choice(WAYS)
        told.append(way.__name__)
        found = way(found, chance)
    return _bytes(found) if isinstance(found, str) else found, told
