"""What stands between the cases of the two devices: from how they are powered, or from one reading of a
meter.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from .formulas.basics import omega
from .guesses import Guesses
from .run import Run
from .tables import Tables

WHINE = 1000.0  # Hz; where a supply current that varies is told


@dataclass(frozen=True)
class Chassis:
    """An open voltage behind a resistance and a capacitance (0: none); `hertz` and `shape` of its waveform.
    `floating`: only a capacitor drives it, so its current grows with frequency."""

    volts: float
    ohm: float
    farad: float
    hertz: float
    shape: str

    @property
    def floating(self) -> bool:
        return self.farad > 0


def row_of(run: Run, tables: Tables) -> Mapping[str, Any]:
    """The row of the powering table for this run."""
    if run.sockets == "same battery":
        return tables.powering["same-battery"]
    pair = "-".join(sorted((run.source.powered, run.input.powered)))
    key = f"{pair}-{run.sockets.replace(' ', '-')}" if pair == "earthed-earthed" else pair
    return tables.powering[key]


def chassis(run: Run, tables: Tables, guess: Guesses, end: int) -> Chassis:
    """The source of hum between the two cases at one end of what is guessed."""
    row = row_of(run, tables)
    guess.note(row, row["words"])
    if run.sockets == "same battery":
        ohm = row["ohm"][end]
        volts = row["amps"][end] * ohm * row["varying"][end]
        return _measured(run, guess, end, Chassis(volts, ohm, 0.0, WHINE, "sine"))
    wave = tables.waves["dimmer" if run.dimmers and "ohm" in row else row["wave"]]
    guess.note(wave, wave["name"])
    shape = wave["shapes"][end]
    if "ohm" in row:
        return _measured(run, guess, end, Chassis(row["volts"][end], row["ohm"][end], 0.0, run.hertz, shape))
    farad = row["farad"][end] + (tables.powering["held"]["farad"][end] if run.held and _battery(run) else 0.0)
    return _measured(run, guess, end, Chassis(row["share"][end] * run.volts, 0.0, farad, run.hertz, shape))


def _battery(run: Run) -> bool:
    return "battery" in (run.source.powered, run.input.powered)


def _measured(run: Run, guess: Guesses, end: int, guessed: Chassis) -> Chassis:
    """The same with the meter's readings in place of the guess; one reading leaves the impedance as
    guessed.
    """
    volts, amps = run.measured_volts, run.measured_amps
    if not (volts or amps):
        return guessed
    ohm, farad, off = guessed.ohm, guessed.farad, guess.constant("meter", end)
    if farad:
        farad = amps / (omega(run.hertz) * volts) if volts and amps else farad
        volts = volts or amps / (omega(run.hertz) * farad)
    else:
        ohm = volts / amps if volts and amps else ohm
        volts = volts or amps * ohm
    return Chassis(volts * off, ohm, farad, guessed.hertz, guessed.shape)
