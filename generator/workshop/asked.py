"""Readings as a person types them, `a.1-b.1=0.3ohm`, and complaints that name the nearest right one."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from difflib import get_close_matches
from math import inf

from generator.catalogue.quantity import QuantityFault, parse

from .dictionary import Dictionary, Measurement, written
from .likely import BEEP, MOVES, SILENT, Answer
from .safety import Misuse

WORDS = {"open": inf, "none": inf, "beep": BEEP, "silent": SILENT, "moves": MOVES}
FORMS = "a resistance (0.3ohm, 2.2kohm), open, beep, silent or moves"


def readings(dictionary: Dictionary, typed: Iterable[str]) -> list[tuple[int, Answer]]:
    """(number of the measurement, answer) of each. Raises Misuse for the first that says nothing."""
    known = {
        name: i for i, m in enumerate(dictionary.measurements) for name in (written(m), written((m[1], m[0])))
    }
    return [_reading(known, text) for text in typed]


def _reading(known: dict[str, int], text: str) -> tuple[int, Answer]:
    pair, equals, shown = text.partition("=")
    if not equals or not shown.strip():
        raise Misuse(f"'{text}' tells no reading; write {pair.strip()}= and {FORMS}.")
    if pair.strip() not in known:
        near = get_close_matches(pair.strip(), known, n=3, cutoff=0.4)
        raise Misuse(
            f"'{pair.strip()}' is not a pair of contacts of this lead."
            + (f" Nearest: {', '.join(near)}." if near else "")
        )
    return known[pair.strip()], answer(shown)


def answer(shown: str) -> Answer:
    """What was read. Raises Misuse for what is neither a resistance nor one of the words."""
    text = shown.strip()
    if text.lower() in WORDS:
        return WORDS[text.lower()]
    try:
        found = parse(text.replace("Ω", "ohm").replace("Ohm", "ohm").replace("Kohm", "kohm"), "ohm")
    except QuantityFault:
        found = None
    if found is None or found.nominal < 0:
        near = get_close_matches(text.lower(), WORDS, n=1, cutoff=0.5)
        raise Misuse(
            f"'{text}' is not a reading; write {FORMS}." + (f" Did you mean {near[0]}?" if near else "")
        )
    return found.nominal


def told(known: Answer) -> str:
    """An answer as it would be typed."""
    if isinstance(known, str):
        return known
    return "open" if known == inf else f"{known:g}ohm"


def joined(measurement: Measurement) -> str:
    """Where the probes go, in words."""

    def side(terminals: Sequence[str]) -> str:
        return (
            terminals[0] if len(terminals) == 1 else f"{', '.join(terminals[:-1])} and {terminals[-1]} joined"
        )

    return f"{side(measurement[0])} to {side(measurement[1])}"
