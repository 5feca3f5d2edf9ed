"""What a person types out of a manual -> a quantity in the catalogue's way of writing, or
the reason why it is none.

The twin of assets/js/own/said.js; both understand a decimal comma, mV, V, dBu, dBV, mV/Pa, ohm, kohm, 4k7,
and refuse what could be read in two ways.
"""

from __future__ import annotations

import re

from generator.catalogue.asked import Ask, Question
from generator.catalogue.quantity import QuantityFault, parse

LONGEST = 40  # characters; no manual prints a longer number
UNITS = {  # what may be typed, in small letters, for each SI unit
    "V": {"v": "V", "volt": "V", "volts": "V", "mv": "mV", "uv": "uV"},
    "A": {"a": "A", "ma": "mA", "ua": "uA"},
    "W": {"w": "W", "watt": "W", "watts": "W", "mw": "mW", "kw": "kW"},
    "ohm": {"ohm": "ohm", "ohms": "ohm", "r": "ohm", "kohm": "kohm", "kohms": "kohm", "k": "kohm"},
}
LEVELS = {"dbu": "dBu", "dbv": "dBV"}
PER_PASCAL = {
    "mv/pa": "mV",
    "v/pa": "V",
    "dbv/pa": "dBV",
    "db": "dBV",
    "db re 1 v/pa": "dBV",
    "db re 1v/pa": "dBV",
}
MEGA = ("M", "Mohm", "Mohms")  # the one prefix whose letter counts: a small m is a thousandth
ANSWERS = ("yes", "no", "silent")
SHOWN = {"V": "63 V", "A": "10 mA", "W": "0.5 W", "ohm": "200 ohm"}
NUMBER = r"[+-]?(?:\d+(?:\.\d+)?|\.\d+)"
WHOLE = re.compile(
    rf"({NUMBER})(?:\s*(?:\.\.|to)\s*({NUMBER}))?\s*([A-Za-z][A-Za-z/]*(?: re 1 ?[Vv]/[Pp]a)?)?", re.ASCII
)
# thousands or a decimal comma: nobody can tell
BOTH_WAYS = re.compile(r"(?<![\d.])[1-9]\d{0,2},\d{3}(?!\d)", re.ASCII)


class Nonsense(ValueError):
    """What was typed is no answer to the question; the message says why and what would be one."""


def said(text: str, ask: Ask, question: Question) -> str | None:
    """The value of the parameters this answer sets, yes or no, or None for nothing. Raises Nonsense."""
    text = " ".join(text.replace("\u00a0", " ").split())
    if question.unit is None:
        return _word(text)
    if not text or text.lower() == "silent":
        return None
    if len(text) > LONGEST:
        raise Nonsense("That is too long to be a number.")
    low, high, unit = _read(text, question)
    written = f"{low}..{high} {unit}" if high else f"{low} {unit}"
    try:
        value = parse(written, question.unit)
    except QuantityFault:
        raise Nonsense(f"{text}? Write the lower number first.") from None
    if value.low <= 0 and question.least != 0:
        raise Nonsense(f"{text}? It must be more than nothing.")
    if (question.least is not None and value.low < question.least) or (
        question.most is not None and value.high > question.most
    ):
        raise Nonsense(f"{text}? {question.beyond}".rstrip())
    if ask.times != 1:
        low, high, unit = _times(value.low, ask.times), high and _times(value.high, ask.times), question.unit
        written = f"{low}..{high} {unit}" if high else f"{low} {unit}"
    return f"{written} +-{ask.spread}" if ask.spread and not high else written


def _word(text: str) -> str | None:
    word = text.lower()
    if word and word not in ANSWERS:
        raise Nonsense("Answer yes, no or silent.")
    return None if word in ("", "silent") else word


def _read(text: str, question: Question) -> tuple[str, str, str]:
    """Number, the higher one of a range or nothing, and unit."""
    if BOTH_WAYS.search(text):
        one = BOTH_WAYS.search(text)[0]
        raise Nonsense(
            f"{text}? {one} may be {one.replace(',', '')} or {one.replace(',', '.')}: write one of them."
        )
    plain = re.sub(r"([0-9]),(?=[0-9])", r"\1.", re.sub("[\u2212\u2013\u2014]", "-", text))
    plain = re.sub("[\u03a9\u2126\u03c9]", "ohm", re.sub("[\u00b5\u03bc]", "u", plain))
    if question.unit == "ohm":
        plain = re.sub(r"^([0-9]+)([kKMR])([0-9]+)( ?ohms?)?$", r"\1.\3 \2", plain)
    match = WHOLE.fullmatch(plain)
    if not match:
        raise Nonsense(f"Write a number and its unit, such as {SHOWN[question.unit]}.")
    low, high, unit = match[1], match[2] or "", match[3] or ""
    return _plain(low), high and _plain(high), _unit(unit, text, question)


def _unit(unit: str, text: str, question: Question) -> str:
    found = "Mohm" if question.unit == "ohm" and unit in MEGA else UNITS[question.unit].get(unit.lower())
    if question.level:
        found = (
            found
            or LEVELS.get(unit.lower())
            or ("Pa" in question.asks and PER_PASCAL.get(unit.lower()))
            or None
        )
    if found:
        return found
    if not unit:
        raise Nonsense(f"{text} of what? Write the unit too, such as {SHOWN[question.unit]}.")
    if unit.lower() == "dbfs":
        raise Nonsense(
            "dBFS is a level inside a digital device: write the level at the socket, in dBu, dBV or V."
        )
    raise Nonsense(f"'{unit}' is no unit here: write {_legal(question)}.")


def _legal(question: Question) -> str:
    units = {"V": "V or mV", "A": "mA or A", "W": "W or mW", "ohm": "ohm or kohm"}[question.unit]
    return f"dBu, dBV, {units}" if question.level else units


def _plain(number: str) -> str:
    """Without a plus, with a digit before the point."""
    number = number.lstrip("+")
    return re.sub(r"^(-?)\.", r"\g<1>0.", number)


def _times(value: float, times: float) -> str:
    """In plain digits, nine of them."""
    return f"{float(f'{value * times:.9g}'):.12f}".rstrip("0").rstrip(".")
