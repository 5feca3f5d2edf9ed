"""Estimate the number, marked by closeness: from the ledger how many dB too hot or too quiet, how many volts;
and three sums of the trade."""

from __future__ import annotations

import re
from collections.abc import Callable
from math import sqrt
from random import Random

from generator.ledger.rows import Row
from generator.lessons.facts import Facts, check, subject
from generator.lessons.levels import level
from generator.lessons.question import NoQuestion, Question, Target

from .kind import Kind
from .outcomes import because, by_first, likely, row_of, told

NUMBER = re.compile(r"^(−?[\d.]+) ([kmµ]?)(\S+)(?: / .*)?$")
PREFIX = {"": 1.0, "k": 1e3, "m": 1e-3, "µ": 1e-6}
ASKED = {
    "too-hot": ("How many dB too loud is it for this input?", "dB"),
    "too-quiet": ("By how many dB does it miss what this input asks for?", "dB"),
    "over-volts": ("A part gets too many volts. How many, at the worst?", "V"),
}
# a factor of two in level; a quarter of a value; less is not worth a guess
CLOSE_DB, CLOSE_SHARE, LEAST_DB = 6.0, 0.25, 6.0
FEED, PHANTOM = 6810.0, 48.0  # ohm in each leg and volts, IEC 61938 for 48 V phantom
DBU = sqrt(0.6)  # V: 1 mW in 600 ohm


def _figures(value: float) -> str:
    """Three figures, as one writes them: 1000, not 1e+03."""
    return f"{value:.3g}" if abs(value) < 1000 else f"{value:.0f}"


def value(number: str) -> tuple[float, str] | None:
    """The first number of a row, in its plain unit: `278 mA / 250 mA` -> (0.278, "A")."""
    found = NUMBER.match(number)
    return (float(found[1].replace("−", "-")) * PREFIX[found[2]], found[3]) if found else None


def _rows(facts: Facts) -> list[Row]:
    verdicts = ("lossy", "dangerous")
    return [
        row
        for verdict in verdicts
        for row in facts.plain[verdict]
        if row["findings"][0] in ASKED and _fitting(row)
    ]


def _fitting(row: Row) -> bool:
    found = value(row["number"])
    return (
        bool(found) and found[1] == ASKED[row["findings"][0]][1] and (found[1] == "V" or found[0] >= LEAST_DB)
    )


def _draw(facts: Facts, chance: Random) -> str:
    if chance.random() < 0.3:
        sum_ = chance.choice(sorted(SUMS))
        return f"{sum_},{chance.choice(SUMS[sum_][0])}"
    by = facts.once("rows with a number", lambda: by_first(_rows(facts)))
    return subject(likely(facts, by[chance.choice(sorted(by))], chance))


def _ask(facts: Facts, about: str, chance: Random) -> Question:
    name, _, amount = about.partition(",")
    if name in SUMS:
        if amount not in SUMS[name][0]:
            raise NoQuestion(f"“{about}”: {name} takes one of {', '.join(SUMS[name][0])}")
        return _sum(facts, about, name, float(amount))
    row = row_of(facts, about)
    if row["offered"] or not row["findings"] or row["findings"][0] not in ASKED or not _fitting(row):
        raise NoQuestion(f"“{about}”: no number to estimate decides it")
    asks, unit = ASKED[row["findings"][0]]
    size = value(row["number"])[0]
    limit = row["number"].partition(" / ")[2]
    given = (*facts.given(row), *((("It is rated for", limit),) if unit == "V" else ()))
    grade, note = facts.grade(row, *row["findings"])
    return Question(
        "estimate",
        about,
        asks,
        (),
        because(row)[0],
        check(row),
        level(facts, "estimate", (row["from"], row["into"])),
        grade,
        form="number",
        target=Target(size, unit, CLOSE_DB if unit == "dB" else abs(size) * CLOSE_SHARE),
        given=given,
        number=told(row["number"]),
        pictures=facts.pictures(row),
        shown=facts.pictures(row),
        note=note,
    )


def _left(milliamps: float) -> tuple[float, str, str, str]:
    volts = PHANTOM - milliamps / 1000 * FEED / 2
    return (
        volts,
        "V",
        f"A microphone draws {milliamps:g} mA from 48 V phantom. How many volts are left at it?",
        (
            f"Both legs feed it in parallel: 6.81 kΩ / 2 = 3.4 kΩ, times {milliamps:g} mA, is lost on the "
            f"way; {volts:.3g} V are left."
        ),
    )


def _times(decibels: float) -> tuple[float, str, str, str]:
    ratio = 10 ** (decibels / 20)
    return (
        ratio,
        "times",
        f"{decibels:g} dB more: how many times the volts?",
        f"20 dB is ten times, 6 dB twice: {decibels:g} dB is {_figures(ratio)} times.",
    )


def _volts(dbu: float) -> tuple[float, str, str, str]:
    volts = DBU * 10 ** (dbu / 20)
    return (
        volts,
        "V",
        f"How many volts are {dbu:+g} dBu?".replace("-", "−"),
        f"0 dBu is 0.775 V: {dbu:+g} dBu is {volts:.3g} V.".replace("-", "−"),
    )


Sum = Callable[[float], tuple[float, str, str, str]]  # value, unit, what is asked, why
SUMS: dict[str, tuple[tuple[str, ...], Sum, str]] = {  # name -> amounts, the sum, the page about it
    "phantom-left": (("1", "2", "3", "4", "5", "7", "10"), _left, "guides/powering/"),
    "times-of-db": (("6", "12", "20", "26", "40", "60"), _times, "guides/levels/"),
    "volts-of-dbu": (("-20", "-6", "0", "4", "12", "18", "24"), _volts, "guides/levels/"),
}


def _sum(facts: Facts, about: str, name: str, amount: float) -> Question:
    size, unit, asks, why = SUMS[name][1](amount)
    return Question(
        "estimate",
        about,
        asks,
        (),
        why,
        SUMS[name][2],
        level(facts, "estimate"),
        "derived",
        form="number",
        target=Target(float(f"{size:.3g}"), unit, float(f"{size * CLOSE_SHARE:.3g}")),
        number=_figures(size),
    )


KINDS = (Kind("estimate", "Estimate the number", _draw, _ask),)
