"""One reading of a meter between the two cases in place of the largest guess: what to expect, and
how much it narrows the answer.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import hypot

from .answer import total_heard
from .between import chassis
from .formulas.basics import db, omega
from .guesses import Guesses
from .numbers import LOUD, QUIET, TYPICAL
from .run import Run
from .tables import Tables


@dataclass(frozen=True)
class Reading:
    """`volts` and `amps` a meter would typically show; spread of the whole answer in dB, quiet to
    loud, now and with both readings.
    """

    volts: float
    amps: float
    now: float | None
    then: float | None


def reading(run: Run, tables: Tables) -> Reading | None:
    """None where it has been measured already or where no meter reads it: from a battery device
    some microamperes flow."""
    if run.measured_volts or run.measured_amps or "battery" in (run.source.powered, run.input.powered):
        return None
    expected = chassis(run, tables, Guesses(run, tables), TYPICAL)
    reactance = 1 / (omega(run.hertz) * expected.farad) if expected.farad else 0.0
    amps = expected.volts / hypot(expected.ohm, reactance)
    then = replace(run, measured_volts=expected.volts, measured_amps=amps)
    return Reading(expected.volts, amps, _spread(run, tables), _spread(then, tables))


def _spread(run: Run, tables: Tables) -> float | None:
    heard = total_heard(run, tables)
    return db(heard[LOUD] / heard[QUIET]) if heard[QUIET] else None
