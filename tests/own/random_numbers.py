"""Random sets of own numbers: what people type, and what nobody should, for random ports."""

from __future__ import annotations

import random
from dataclasses import dataclass

from generator.catalogue import Catalogue, Port
from generator.catalogue.asked import Ask, Question

UNITS = {
    "V": ["V", "mV", "v", "Volt", "volts"],
    "A": ["mA", "A", "ma"],
    "W": ["W", "mW", "kW", "watts"],
    "ohm": ["ohm", "kohm", "Ω", "kΩ", "k", "M", "R", "Ohms"],
}
LEVELS = ["dBu", "dBV", "dbu", "DBV", "dBFS", "dB", "mV/Pa", "dB re 1 V/Pa"]
WORDS = ["yes", "No", "silent", "", "maybe", "YES"]
ODD = [
    "63",
    "4,800 V",
    "0,775 V",
    "-3 V",
    "1e3 V",
    "V",
    "63 volt s",
    "9..52 V",
    "52..9 V",
    "9 to 52 V",
    "4k7",
    "1,2 kΩ",
    "+20 dBu",
    "−10 dBV",
    "63 V ",
    " 63\u00a0V",
    "constructor",
    "63 V +-5 %",
    "<script>",
    "٣ V",
    "9" * 39 + " V",
    "9" * 50,
    "0 V",
    ".5 V",
    "5. V",
    "unknown",
    "6.3V",
    "\u00b5V",
    "3 µV",
    "silent",
    "",
    "Silent",
]


@dataclass(frozen=True)
class Set:
    """One port with what was typed: ask id -> text."""

    port: str
    answers: dict[str, str]


def typed(draw: random.Random, ask: Ask, question: Question) -> str:
    """What somebody might type for one question; nonsense now and then."""
    if question.unit is None:
        return draw.choice(WORDS)
    if draw.random() < 0.15:
        return draw.choice(ODD)
    unit = draw.choice(UNITS[question.unit] + (LEVELS if question.level else []))
    number = draw.uniform(-60, 30) if "d" in unit.lower() else 10 ** draw.uniform(-3, 4)
    text = f"{number:.{draw.randrange(4)}f}" if draw.random() < 0.7 else f"{number:.3g}"
    return (text.replace(".", ",") if draw.random() < 0.3 else text) + draw.choice([" ", "", "  "]) + unit


def sets(catalogue: Catalogue, count: int, seed: int) -> list[Set]:
    """`count` of them, one to four answers each; the first ones answer every question there is, of some
    port that is asked it."""
    draw, ports = random.Random(seed), [port for port in catalogue.ports.values() if port.asks]
    asked = {
        question: [(port, ask) for port in ports for ask in port.asks if ask.question == question]
        for question in catalogue.questions
    }
    firsts = [_set(draw, *draw.choice(places), catalogue) for places in asked.values()]
    return (firsts + [_set(draw, draw.choice(ports), None, catalogue) for _ in range(count - len(firsts))])[
        :count
    ]


def _set(draw: random.Random, port: Port, first: Ask | None, catalogue: Catalogue) -> Set:
    asks = {ask.id: ask for ask in draw.sample(port.asks, min(len(port.asks), draw.randint(1, 4)))} | (
        {first.id: first} if first else {}
    )
    return Set(port.id, {id: typed(draw, ask, catalogue.questions[ask.question]) for id, ask in asks.items()})
