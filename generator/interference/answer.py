"""The paths weighed against what is wanted, the noise and the ear: how much, which one most, and
what to say.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import hypot

from .formulas import hearing
from .formulas.basics import db, from_db, together
from .guesses import Guess, Guesses
from .numbers import ENDS, LOUD, TYPICAL, Numbers, numbers
from .paths import PATHS, Lines, paths
from .radio import Heard, radio
from .run import Run
from .tables import Tables

ONLY_AT_WORST = ("drain",)  # its size is not verified: it counts at the loud end and is told as a remark
SAID = ("inaudible", "in the noise", "under the voice", "in pauses", "unusable")  # from best to worst
Three = tuple[float, ...]


@dataclass(frozen=True)
class Level:
    """Volts at the input at the quiet end, typical and at the loud end: as a meter reads them, and weighted
    for the ear.
    """

    volts: Three
    weighted: Three
    below: tuple[float | None, ...]  # dB below what is wanted
    noise: tuple[float | None, ...]  # dB above the noise, weighted; below it where negative


@dataclass(frozen=True)
class Answer:
    """`said` and `worst` are words of SAID; `loudest` the line (Hz) that stands out most to the ear;
    `dominant` a path or None.
    """

    paths: Mapping[str, Level]
    total: Level
    dominant: str | None
    said: str
    best: str
    worst: str
    loudest: float
    wanted: Three
    noise: Three
    balanced: bool
    closed: bool
    in_range: bool
    floating: bool
    radio: tuple[Heard, ...]
    guesses: tuple[Guess, ...]


def answer(run: Run, tables: Tables) -> Answer:
    """What gets into a run. Raises nothing: a run that was read is sound."""
    guesses = Guesses(run, tables)
    three = [numbers(run, tables, end, guesses) for end in range(len(ENDS))]
    spectra = tables.spectra[f"{run.hertz:.0f}"]
    found = [paths(n, spectra, run.hertz) for n in three]
    sums = [_sum(found[end], end) for end in range(len(ENDS))]
    levels = {name: _level([lines[name] for lines in found], three, tables) for name in PATHS}
    total = _level(sums, three, tables)
    heard = [said(sums[end], n, tables) for end, n in enumerate(three)]
    counted = [name for name in PATHS if name not in ONLY_AT_WORST and levels[name].weighted[TYPICAL] > 0]
    middle = three[TYPICAL]
    return Answer(
        levels,
        total,
        max(counted, key=lambda name: levels[name].weighted[TYPICAL], default=None),
        heard[TYPICAL],
        heard[0],
        heard[LOUD],
        loudest(sums[TYPICAL], middle.wanted, tables),
        tuple(n.wanted for n in three),
        tuple(n.noise for n in three),
        middle.balanced,
        middle.closed,
        middle.in_range,
        middle.chassis.floating,
        radio(run, tables, middle.balanced),
        tuple(guesses.used.values()),
    )


def total_heard(run: Run, tables: Tables) -> Three:
    """Weighted volts of everything at the three ends: what remedies are ranked by."""
    spectra = tables.spectra[f"{run.hertz:.0f}"]
    return tuple(
        weighted(_sum(paths(numbers(run, tables, end), spectra, run.hertz), end)) for end in range(len(ENDS))
    )


def _sum(found: Mapping[str, Lines], end: int) -> Lines:
    """All paths together, line by line: roots of squares, at the loud end sums."""
    counted = [found[name] for name in PATHS if end == LOUD or name not in ONLY_AT_WORST]
    every = sorted({f for lines in counted for f in lines})
    return {f: together((lines[f] for lines in counted if f in lines), end == LOUD) for f in every}


def weighted(lines: Lines) -> float:
    """Volts weighted for the ear."""
    return together(volts * from_db(hearing.weighting(f)) for f, volts in lines.items())


def _level(lines: Iterable[Lines], three: Iterable[Numbers], tables: Tables) -> Level:
    lines, three = list(lines), list(three)
    volts, heard = tuple(together(one.values()) for one in lines), tuple(map(weighted, lines))
    floor = [n.noise * from_db(tables.hearing["noise_weighting"]["value"]) for n in three]
    return Level(
        volts,
        heard,
        tuple(db(n.wanted / v) if v else None for n, v in zip(three, volts)),
        tuple(db(h / f) for h, f in zip(heard, floor)),
    )


def room(hertz: float, tables: Tables) -> float:
    """dB below a voice at which a steady tone can just not be heard in silence."""
    return tables.hearing["voice"]["value"] - hearing.threshold(hertz, tables.hearing["threshold"]["points"])


def loudest(lines: Lines, wanted: float, tables: Tables) -> float:
    """The line that stands furthest above the threshold, Hz; 0 where there is none."""
    return max(lines, key=lambda f: db(lines[f] / wanted) + room(f, tables), default=0.0)


def said(lines: Lines, n: Numbers, tables: Tables) -> str:
    """One of SAID for a sum of lines."""
    floor = n.noise * from_db(tables.hearing["noise_weighting"]["value"])
    over = db(weighted(lines) / floor)
    margin = tables.hearing["margin"]["value"]
    if over is None or over < -margin:
        return "inaudible"
    if over <= margin:
        return "in the noise"
    if db(n.wanted / hypot(*lines.values())) < tables.hearing["unusable"]["value"]:
        return "unusable"
    most = loudest(lines, n.wanted, tables)
    return "in pauses" if db(lines[most] / n.wanted) + room(most, tables) > 0 else "under the voice"
