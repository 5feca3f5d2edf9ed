"""An answer with its cures: as lines for a terminal, and as data for other programs."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import Any

from . import words
from .answer import Answer, Level, answer
from .numbers import LOUD, QUIET, TYPICAL
from .paths import PATHS
from .reach import treble
from .reading import Reading, reading
from .remedies import Remedy, remedies, six_decibels
from .run import Run
from .tables import Tables


@dataclass(frozen=True)
class Told:
    """Everything there is to tell about a run."""

    run: Run
    answer: Answer
    remedies: tuple[Remedy, ...]
    reading: Reading | None
    six_decibels: float | None
    cautions: tuple[str, ...]
    treble: float  # dB left at 20 kHz


def tell(run: Run, tables: Tables) -> Told:
    """Answer, cures, the reading worth taking, and the cautions whose condition is there."""
    return Told(
        run,
        answer(run, tables),
        remedies(run, tables),
        reading(run, tables),
        six_decibels(run, tables),
        cautions(run, tables),
        treble(run, tables),
    )


def cautions(run: Run, tables: Tables) -> tuple[str, ...]:
    """The cautions of a run."""
    return tuple(tables.cautions[id]["words"] for id in _cautions(run, tables))


def _cautions(run: Run, tables: Tables):
    """Ids of the cautions whose condition is there."""
    if {run.source.powered, run.input.powered} != {"battery"}:
        yield "mains"
        yield "measure"
    if any(tables.mains[one.cable]["carries"] > 16 for one in run.beside):
        yield "feeders"
    if any((one.watts or tables.transmitters[one.transmitter]["watts"]) >= 1 for one in run.transmitters):
        yield "radio"


def as_lines(told: Told, tables: Tables) -> str:
    """The answer first, what to do second, numbers third."""
    a, found = told.answer, told.remedies
    lines = [*([told.run.name] if told.run.name else []), words.headline(a)]
    if a.dominant:
        lines.append(f"Most of it: {tables.formulas[a.dominant]['words']}")
    lines += [words.of_radio(one, tables) for one in a.radio]
    lines += [] if a.in_range else [words.OUT_OF_RANGE]
    lines += ["", "What to do:"]
    helping = words.worth_telling(a, found)
    lines += [f"  {words.of_remedy(one, tables)}" for one in helping] or ["  Nothing: leave it as it is."]
    lines += [f"  {words.better_cable(found)}", *_six(told)]
    idle = [one for one in found if not words.helps(one)]
    if idle:
        lines += ["  These gain 0 dB here: " + " ".join(one.words for one in idle)]
    if told.reading:
        lines += ["", words.of_reading(told.reading)]
    lines += ["", "Numbers (quiet, typical, loud end of what is guessed):"]
    lines += [
        f"  {_row(tables.formulas[name]['name'], a.paths[name], name)}"
        for name in PATHS
        if a.paths[name].volts[LOUD]
    ]
    lines += [
        f"  {_row('all together', a.total, '')}",
        f"  wanted: {words.one_figure(a.wanted[TYPICAL], 'V')} at the input",
    ]
    lines += [
        f"  treble left at 20 kHz: {words.decibels(told.treble) if told.treble < -0.5 else 'all of it'}"
    ]
    lines += ["", "Guessed:"] + [f"  {_guess(one)}" for one in a.guesses]
    lines += ["", "Never:"] + [f"  {row['words']} {row['why']}" for row in tables.never.values()]
    return "\n".join([*lines, "", *told.cautions])


def _six(told: Told):
    if told.six_decibels:
        yield f"  {told.six_decibels:.1f} times as far from what lies beside it gains 6 dB."


def _row(name: str, level: Level, path: str) -> str:
    volts = " .. ".join(words.one_figure(v, "V") for v in level.volts)
    below = " .. ".join(
        words.decibels(level.below[end]) if level.volts[end] else "nothing" for end in (LOUD, TYPICAL, QUIET)
    )
    noise = level.noise[TYPICAL]
    heard = (
        ""
        if noise is None
        else f"; to the ear {abs(noise):.0f} dB {'over' if noise > 0 else 'under'} the noise"
    )
    counts = " (counts at its worst only)" if path == "drain" else ""
    return f"{name}: {volts}; below what is wanted {below}{heard}{counts}"


def _guess(one) -> str:
    values = " .. ".join(f"{value:g}" for value in one.values)
    shown = f": {values} {one.unit if one.unit != '1' else ''}".rstrip() if values else ""
    key = f" [assume {one.key}]" if one.key else ""
    return f"{one.words}{shown}{key} ({one.evidence}). {one.reason}"


def as_data(told: Told, tables: Tables) -> dict[str, Any]:
    """Plain data. Levels have three values: quiet, typical, loud; dB are None where there is
    nothing to compare.
    """
    a = told.answer
    return {
        "run": told.run.as_data(),
        "said": a.said,
        "best": a.best,
        "worst": a.worst,
        "says": words.headline(a),
        "dominant": a.dominant,
        "loudest_hertz": a.loudest,
        "wanted_volts": a.wanted,
        "noise_volts": a.noise,
        "balanced": a.balanced,
        "in_range": a.in_range,
        "paths": {name: asdict(level) for name, level in a.paths.items()},
        "total": asdict(a.total),
        "radio": [{**asdict(one), "says": words.of_radio(one, tables)} for one in a.radio],
        "remedies": [
            {"id": one.id, "says": words.of_remedy(one, tables), "gain_db": one.gains, "radio_db": one.radio}
            for one in told.remedies
        ],
        "treble_db": told.treble,
        "better_cable": words.better_cable(told.remedies),
        "six_decibels_at_times": told.six_decibels,
        "reading": asdict(told.reading) if told.reading else None,
        "guesses": [asdict(one) for one in a.guesses],
        "never": [row["words"] for row in tables.never.values()],
        "cautions": told.cautions,
    }
