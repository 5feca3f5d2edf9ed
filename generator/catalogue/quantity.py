"""Text such as `6.81 kohm`, `44..52 V`, `48 V +-4 V`, `-50 dBu` -> a Quantity in SI units."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from decimal import Decimal, DecimalException
from functools import lru_cache

from .problems import a, quoted
from .records import Quantity

UNKNOWN = "unknown"
DIMENSIONS = {
    "V": "voltage",
    "A": "current",
    "W": "power",
    "ohm": "resistance",
    "F": "capacitance",
    "H": "inductance",
    "m": "length",
    "deg": "angle",
    "1": "share in %",
    "ohm/m": "resistance per metre",
    "F/m": "capacitance per metre",
    "dB": "ratio in dB",
}
_PREFIXES = {"p": -12, "n": -9, "u": -6, "m": -3, "": 0, "k": 3, "M": 6}
_LEVELS = {"dBu": math.sqrt(0.6), "dBV": 1.0}  # 0 dBu is 1 mW in 600 ohm: sqrt(0.001 W * 600 ohm)
_NUMBER = r"[+-]?(?:\d+(?:\.\d+)?|\.\d+)(?:[eE][+-]?\d+)?"
_UNIT = r"[A-Za-z%][A-Za-z/]*"
_WHOLE = re.compile(
    rf"(?P<low>{_NUMBER})(?: *\.\. *(?P<high>{_NUMBER}))? *(?P<unit>{_UNIT})(?: *(?:\+-|±) "
    rf"*(?P<spread>(?:\d+(?:\.\d+)?|\.\d+)) *(?P<spread_unit>{_UNIT}))?",
    re.ASCII,
)
FORMS = (
    "a number and a unit (6.81 kohm), a range (44..52 V), a tolerance (48 V +-4 V, 6.81 kohm +-20 %) or "
    "`unknown`"
)


class QuantityFault(ValueError):
    """`rule` is bad-quantity or wrong-unit; the text names the legal forms."""

    def __init__(self, rule: str, message: str):
        super().__init__(message)
        self.rule = rule


@lru_cache(maxsize=10_000)  # a few hundred different ones make up a catalogue
def parse(text: str, unit: str | None = None) -> Quantity | None:
    """A Quantity (None for `unknown`); `unit` is the SI unit wanted. Raises QuantityFault."""
    text = text.strip()
    if text == UNKNOWN:
        return None
    match = _WHOLE.fullmatch(text)
    if not match or (match["high"] and match["spread"]):
        raise QuantityFault("bad-quantity", f"{quoted(text)} is not a quantity; write {FORMS}.")
    si_unit, scale = _scale(match["unit"], text)
    if unit and si_unit != unit:
        wanted = f"{described(unit)} ({_written(unit)}) is wanted here"
        raise QuantityFault("wrong-unit", f"{quoted(text)} is {described(si_unit)}; {wanted}.")
    try:
        low, nominal, high = _interval(match, si_unit, text)
        if low > high:
            raise QuantityFault(
                "bad-quantity", f"{quoted(text)} runs backwards; write the lower value first."
            )
        values = [scale(value) for value in (nominal, low, high)]
    except (DecimalException, OverflowError, ZeroDivisionError):  # exponents no arithmetic can hold
        values = [math.inf]
    if not all(map(math.isfinite, values)):
        raise QuantityFault("bad-quantity", f"{quoted(text)} is too large to be a quantity.")
    return Quantity(*values, unit=si_unit, text=text)


def _scale(unit: str, text: str) -> tuple[str, Callable[[Decimal], float]]:
    """The SI unit of a written unit and the function from written numbers to SI (exact for powers of ten)."""
    if unit in _LEVELS:
        return "V", lambda value: _LEVELS[unit] * _power_of_ten(float(value) / 20)
    if unit in ("deg", "dB"):
        return unit, float
    if unit == "%":
        return "1", lambda value: float(value.scaleb(-2))
    for prefix, exponent in _PREFIXES.items():
        base = unit.removeprefix(prefix)
        if unit.startswith(prefix) and base in DIMENSIONS and base not in ("deg", "dB", "1"):
            return base, lambda value: float(value.scaleb(exponent))
    units = ", ".join((*map(_written, DIMENSIONS), *_LEVELS)) + ", with prefixes p n u m k M"
    raise QuantityFault("bad-quantity", f"{quoted(unit)} in {quoted(text)} is not a unit; units are {units}.")


def _power_of_ten(exponent: float) -> float:
    try:
        return 10.0**exponent
    except OverflowError:
        return math.inf


def _interval(match: re.Match, si_unit: str, text: str) -> tuple[Decimal, Decimal, Decimal]:
    """Low, nominal and high in the written unit."""
    low = Decimal(match["low"])
    if match["high"]:
        high = Decimal(match["high"])
        return low, (low + high) / 2, high
    spread = Decimal(match["spread"] or 0)
    if match["spread_unit"] == "%":
        spread = abs(low) * spread / 100
    elif match["spread_unit"] and (match["unit"] in _LEVELS or match["spread_unit"] != match["unit"]):
        spread = _converted(spread, match, text)
    return low - spread, low, low + spread


def _converted(spread: Decimal, match: re.Match, text: str) -> Decimal:
    """A tolerance written in another unit than its value: another prefix, or dB on a level."""
    unit, spread_unit = match["unit"], match["spread_unit"]
    if unit in _LEVELS:
        if spread_unit == "dB":
            return spread
    elif _scale(unit, text)[0] == _scale(spread_unit, text)[0] and spread_unit not in _LEVELS:
        return Decimal(repr(_scale(spread_unit, text)[1](spread))) / Decimal(
            repr(_scale(unit, text)[1](Decimal(1)))
        )
    raise QuantityFault(
        "wrong-unit", f"the tolerance of {quoted(text)} is in {spread_unit}, its value in {unit}."
    )


def described(unit: str) -> str:
    """'a resistance', 'an angle'."""
    return a(DIMENSIONS[unit])


def _written(unit: str) -> str:
    return "%" if unit == "1" else unit
