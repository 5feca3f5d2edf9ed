"""Amounts as people on set write them, `5 cm`, `16 A`, `12 mV`: more units than the catalogue needs, one
number each.
"""

from __future__ import annotations

import re
from decimal import Decimal

UNITS = {
    "V": "a voltage",
    "A": "a current",
    "W": "a power",
    "ohm": "a resistance",
    "F": "a capacitance",
    "H": "an inductance",
    "m": "a length",
    "T": "a magnetic field",
    "Hz": "a frequency",
    "m2": "an area",
    "dB": "a ratio in dB",
    "deg": "an angle",
    "1": "a number",
    "ohm/m": "a resistance per metre",
    "F/m": "a capacitance per metre",
    "H/m": "an inductance per metre",
}
PREFIXES = {"p": -12, "n": -9, "u": -6, "m": -3, "c": -2, "": 0, "k": 3, "M": 6, "G": 9}
WITHOUT_PREFIX = ("dB", "deg", "1")
LEVELS = {"dBu": 0.6**0.5, "dBV": 1.0}
_WHOLE = re.compile(r"([+-]?(?:\d+(?:\.\d+)?|\.\d+)(?:[eE][+-]?\d+)?)\s*([A-Za-z%][A-Za-z0-9/]*)?")


class AmountFault(ValueError):
    """`rule` is bad-quantity or wrong-unit; the text says what would be right."""

    def __init__(self, rule: str, message: str):
        super().__init__(message)
        self.rule = rule


def parse(text: str, unit: str | None = None) -> float:
    """The number in the SI unit; `unit` is the one wanted. Raises AmountFault."""
    value, found = split(text)
    if unit is not None and found != unit:
        raise AmountFault("wrong-unit", f"'{text}' is {UNITS[found]}; {UNITS[unit]} ({unit}) is wanted here.")
    return value


def split(text: str) -> tuple[float, str]:
    """Number and SI unit. Raises AmountFault."""
    match = _WHOLE.fullmatch(text.strip())
    if not match:
        raise AmountFault(
            "bad-quantity", f"'{text}' is not an amount; write a number and a unit, such as 5 cm or 16 A."
        )
    number, written = Decimal(match[1]), match[2] or "1"
    if written in LEVELS:
        return LEVELS[written] * 10 ** (float(number) / 20), "V"
    if written == "%":
        return float(number.scaleb(-2)), "1"
    for prefix, power in PREFIXES.items():
        base = written.removeprefix(prefix)
        if written.startswith(prefix) and base in UNITS and not (prefix and base in WITHOUT_PREFIX):
            return float(number.scaleb(2 * power if base == "m2" else power)), base
    legal = ", ".join(unit for unit in (*UNITS, *LEVELS, "%") if unit != "1")
    raise AmountFault(
        "bad-quantity",
        f"'{written}' in '{text}' is not a unit; units are {legal}, with prefixes p n u m c k M G.",
    )
