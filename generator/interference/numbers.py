"""A run turned into plain numbers, three times: at the quiet end, typical, and at the loud end of everything
guessed.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from .between import Chassis, chassis
from .formulas import chassis as circuit
from .formulas import hearing
from .formulas.basics import from_db, together
from .guesses import Guesses
from .nearby import Coupled, Induced, electric, fields
from .run import Run
from .tables import Tables

ENDS = ("quiet", "typical", "loud")
QUIET, TYPICAL, LOUD = range(3)
SHORT = 30  # times the screen: see in_range; held against circuits in tests/oracle
PAIRS = ("pair", "quad", "open pair")


@dataclass(frozen=True)
class Numbers:
    """Everything the paths need, SI units. `worst`: voltages add as sums instead of roots of squares.
    `rejection` is a share.
    `transformer` F between its windings (0: none); `closed`: the screen joins both cases."""

    worst: bool
    balanced: bool
    source_ohm: float
    input_ohm: float
    imbalance: float
    leg: float
    common: float
    common_farad: float
    rejection: float
    chassis: Chassis
    closed: bool
    screen_ohm: float
    loop_henry: float
    bond: float
    transformer: float
    induced: tuple[Induced, ...]
    loop: tuple[Induced, ...]
    coil: tuple[Induced, ...]
    electric: tuple[Coupled, ...]
    electric_ohm: float
    own_farad: float
    uneven: float
    nearness: float
    contact_one: float
    wanted: float
    noise: float

    @property
    def in_range(self) -> bool:
        """Do source and input carry next to nothing of the screen's current, as the formulas take it?"""
        across = self.common + self.leg if self.balanced and self.common else self.source_ohm + self.input_ohm
        return across > SHORT * self.screen_ohm

    @property
    def divider(self) -> float:
        """Share of a voltage in the signal circuit that stands at the input."""
        return circuit.divider(self.source_ohm, self.input_ohm)


def numbers(run: Run, tables: Tables, end: int, guesses: Guesses | None = None) -> Numbers:
    """The run at one end (QUIET, TYPICAL, LOUD); what is guessed is written into `guesses`."""
    guess = guesses or Guesses(run, tables)
    source, input = tables.sources[run.source.device], tables.inputs[run.input.device]
    guess.note(source, source["name"])
    guess.note(input, input["name"])
    balanced = is_balanced(run, tables)
    alike = source["balanced"] and all(lead.cold == "through" for lead in run.leads)
    near = fields(run, tables, guess, end)
    coupled = electric(run, tables, guess, end)
    divider = circuit.divider(source["ohm"], input["ohm"])
    return Numbers(
        worst=end == LOUD,
        balanced=balanced,
        source_ohm=source["ohm"],
        input_ohm=input["ohm"],
        imbalance=guess.given("imbalance", source["imbalance"] if alike else source["ohm"]),
        leg=source["ohm"] / 2 if alike else 0.0,
        common=input["common"],
        common_farad=input["farad"],
        rejection=from_db(-guess.given("rejection", input["rejection"][end])),
        chassis=chassis(run, tables, guess, end),
        closed=not any(lead.screen.startswith("open") for lead in run.leads),
        screen_ohm=sum(_return_ohm(lead, tables, guess, end) for lead in run.leads),
        loop_henry=guess.constant("loop-inductance", end) * run.length,
        bond=run.bond,
        transformer=guess.constant("transformer", end) if run.transformer else 0.0,
        induced=near.pair,
        loop=near.loop,
        coil=near.coil,
        electric=coupled.all,
        electric_ohm=coupled.ohm,
        own_farad=coupled.own_farad,
        uneven=coupled.uneven,
        nearness=sum(tables.cables[lead.cable]["nearness"][end] * lead.length for lead in run.leads)
        if balanced
        else 0.0,
        contact_one=guess.constant("contact-1", end)
        if run.source.contact_one or run.input.contact_one
        else 0.0,
        wanted=wanted(source, tables) * divider,
        noise=together((input["noise"], source["noise"] * divider)),
    )


def is_balanced(run: Run, tables: Tables) -> bool:
    """Do two alike wires arrive at an input that takes their difference?"""
    pairs = all(
        tables.cables[lead.cable]["build"] in PAIRS and lead.cold != "to the screen at the input"
        for lead in run.leads
    )
    return tables.inputs[run.input.device]["balanced"] and pairs


def wanted(source: Mapping[str, Any], tables: Tables) -> float:
    """Volts of what is wanted, unloaded: nominal level, or a talker at a metre where the level is that of a
    microphone at 1 Pa.
    """
    if source["kind"] == "microphone":
        return hearing.microphone_volts(source["level"], tables.hearing["talker"]["value"])
    return source["level"]


def _return_ohm(lead, tables: Tables, guess: Guesses, end: int) -> float:
    row = tables.cables[lead.cable]
    guess.note(row, row["name"], row["return"], "ohm/m")
    return row["return"][end] * lead.length + guess.constant("contacts", end)
