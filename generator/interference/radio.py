"""Radio near a run: three steps, never volts. Field by distance, then one step up for what makes a
run worse.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import floor

from .formulas import radio as formulas
from .run import Run, Transmitter
from .tables import Tables

STEPS = ("unlikely", "test it", "expect it")
HIGH_GAIN = "microphone"


@dataclass(frozen=True)
class Heard:
    """`field` V/m; `step` one of STEPS; `why`: what moved it up; `clear`: m at which it would be unlikely as
    the run is; `tuned`: the length
    is near an odd quarter wave of one of its bands; `near`: too close for the formula."""

    transmitter: str
    distance: float
    field: float
    step: str
    why: tuple[str, ...]
    clear: float
    tuned: bool
    near: bool


def radio(run: Run, tables: Tables, balanced: bool) -> tuple[Heard, ...]:
    """One answer for each transmitter."""
    return tuple(_heard(one, run, tables, balanced) for one in run.transmitters)


def _heard(one: Transmitter, run: Run, tables: Tables, balanced: bool) -> Heard:
    row, rules = tables.transmitters[one.transmitter], tables.radio
    watts, factor = one.watts or row["watts"], rules["factor"]["values"][-1]
    loss = 10 ** (-formulas.ferrite_loss(run.ferrite) / 20) if run.ferrite else 1.0
    field = formulas.proximity_field(watts, one.distance, factor)
    tuned = any(_tuned(run.length, hertz, tables) for hertz in row["hertz"])
    why = tuple(_worse(run, tables, balanced, tuned))
    felt = field * loss
    step = 2 if felt >= rules["expect"]["value"] else 1 if felt >= rules["test"]["value"] else 0
    clear = formulas.clear_distance(watts, rules["test"]["value"], factor) * loss
    near = one.distance < formulas.wave(min(row["hertz"])) / 6
    return Heard(
        one.transmitter, one.distance, field, STEPS[min(2, step + bool(why))], why, clear, tuned, near
    )


def _tuned(length: float, hertz: float, tables: Tables) -> bool:
    """Within a share of an odd quarter wave; not asked of runs so long that nobody can know."""
    rules = tables.radio
    if length > rules["longest"]["value"] * formulas.wave(hertz):
        return False
    quarters = formulas.quarter_waves(length, hertz, rules["velocity"]["value"])
    odd = 2 * max(0, floor(quarters / 2)) + 1
    return abs(quarters - odd) <= rules["tuned"]["value"]


def _worse(run: Run, tables: Tables, balanced: bool, tuned: bool):
    if not balanced:
        yield "unbalanced"
    if run.source.contact_one or run.input.contact_one:
        yield "contact 1"
    if any(lead.screen != "whole" or tables.cables[lead.cable]["screen"] == "none" for lead in run.leads):
        yield "screen"
    if tables.inputs[run.input.device]["kind"] == HIGH_GAIN:
        yield "high gain"
    if tuned:
        yield "length"
