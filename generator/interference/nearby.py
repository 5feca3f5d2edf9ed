"""What lies beside the run: fields of mains cables and transformers into the pair, the loop and the spare
coil; capacitance of live wires.
"""

from __future__ import annotations

from dataclasses import dataclass

from .formulas import electric as capacitive
from .formulas import field, pickup
from .formulas.basics import from_db, omega, parallel
from .guesses import Guesses
from .run import Beside, Lead, Run
from .tables import Tables

HIGH_OHM = 10e3  # a source above this hears electric fields through a whole screen too
LEAST_GAP = 1.05  # of the diameter: two wires do not get nearer
CONNECTORS = ("pair", "quad", "open pair")


@dataclass(frozen=True)
class Induced:
    """Volts at the mains frequency if all of the current were there; a harmonic n of share h makes
    n h of it.
    """

    volts: float
    shape: str


@dataclass(frozen=True)
class Coupled:
    """A live wire of `volts` behind `farad`."""

    volts: float
    farad: float
    shape: str


@dataclass(frozen=True)
class Fields:
    pair: tuple[Induced, ...]
    loop: tuple[Induced, ...]
    coil: tuple[Induced, ...]


@dataclass(frozen=True)
class Electric:
    all: tuple[Coupled, ...]
    ohm: float
    own_farad: float
    uneven: float


def longest(run: Run) -> Lead:
    """The lead that lies beside everything; the first of those alike."""
    return max(run.leads, key=lambda lead: lead.length)


def fields(run: Run, tables: Tables, guess: Guesses, end: int) -> Fields:
    """Everything the magnetic fields induce at one end of what is guessed."""
    pair, loop, coil = [], [], []
    facing, w = guess.constant("alignment", end), omega(run.hertz)
    for one in run.beside:
        amps, shape = current(one, tables, guess, end)
        spacing, lay, alone = _cable(one, tables, guess, end)
        distance, along, misfit = one.distance, _along(one, run), _misfit(one, guess, end)
        area = _area(run, tables, guess, end, along) + _connector(run, tables, guess, end)
        tesla = field.cable(1.0, spacing, lay, distance)
        pair.append(Induced(w * amps * tesla * area * facing * misfit, shape))
        pair.append(Induced(w * field.wire(alone, distance) * area * facing * misfit, "sine"))
        width = guess.constant("loop-width", end)
        twist = field.twist(distance, lay) if lay else 1.0
        strip = pickup.strip_beside_cable(spacing, twist, distance, width)
        loop.append(Induced(w * amps * along * strip * facing * misfit, shape))
        loop.append(
            Induced(w * alone * along * pickup.strip_beside_wire(distance, width) * facing * misfit, "sine")
        )
        if run.spare:
            away = run.spare.distance or distance
            turns = _coil_area(run, guess, end) * w * facing
            coil.append(Induced(turns * amps * field.cable(1.0, spacing, lay, away), shape))
            coil.append(Induced(turns * field.wire(alone, away), "sine"))
    for thing in run.things:
        row = tables.things[thing.thing]
        guess.note(row, row["name"])
        shape = tables.waves[row["wave"]]["shapes"][end]
        away = max(thing.distance, row["at"][end])  # nearer than its surface there is nothing to say
        tesla = field.falling(row["field"][end], row["at"][end], away)
        area = _area(run, tables, guess, end, min(2 * away, run.length))
        pair.append(Induced(w * tesla * area * facing, shape))
        loop.append(Induced(w * tesla * pickup.loop_beside_dipole(away) * facing, shape))
        if run.spare:
            away = max(run.spare.distance or thing.distance, row["at"][end])
            there = field.falling(row["field"][end], row["at"][end], away)
            coil.append(Induced(w * there * _coil_area(run, guess, end) * facing, shape))
    if run.spare:
        coil.append(
            Induced(w * guess.constant("room-field", end) * _coil_area(run, guess, end) * facing, "sine")
        )
    return Fields(tuple(pair), tuple(loop), tuple(coil))


def current(one: Beside, tables: Tables, guess: Guesses, end: int) -> tuple[float, str]:
    """Amps of a mains cable and the shape of their wave."""
    load = tables.loads[one.load]
    wave = tables.waves[load["wave"]]
    if not one.amps:
        guess.note(load, load["name"], load["amps"], "A")
    guess.note(wave, wave["name"])
    return one.amps or load["amps"][end], wave["shapes"][end]


def _cable(one: Beside, tables: Tables, guess: Guesses, end: int) -> tuple[float, float, float]:
    row = tables.mains[one.cable]
    guess.note(row, row["name"])
    return row["spacing"][end], row["lay"][end], row["alone"][end]


def _along(one: Beside, run: Run) -> float:
    return min(one.along or run.length, run.length)


def _misfit(one: Beside, guess: Guesses, end: int) -> float:
    return pickup.crossing(guess.constant("angle-off", end)) if one.lies == "crossing" else 1.0


def _area(run: Run, tables: Tables, guess: Guesses, end: int, along: float) -> float:
    """Square metres between the two signal wires of the longest lead over a length; none in a coaxial one."""
    row = tables.cables[longest(run).cable]
    if row["build"] == "coax":
        return 0.0
    if row["build"] == "two wires":
        return pickup.untwisted_area(row["spacing"], along)
    area = pickup.twisted_area(row["spacing"], row["lay"][end], along, guess.constant("uneven-lay", end))
    return area * from_db(-guess.constant("quad", end)) if row["build"] == "quad" else area


def _connector(run: Run, tables: Tables, guess: Guesses, end: int) -> float:
    build = tables.cables[longest(run).cable]["build"]
    return guess.constant("connector-area", end) if build in CONNECTORS else 0.0


def _coil_area(run: Run, guess: Guesses, end: int) -> float:
    area = pickup.coil_area(run.spare.turns, run.spare.across)
    return area * guess.constant("figure-of-eight", end) if run.spare.lies == "figure of eight" else area


def electric(run: Run, tables: Tables, guess: Guesses, end: int) -> Electric:
    """Capacitance to live wires, only where the screen does not keep it out or the source cannot hold its
    own.
    """
    source, input = tables.sources[run.source.device], tables.inputs[run.input.device]
    lead = longest(run)
    row, ohm = tables.cables[lead.cable], parallel(source["ohm"], input["ohm"])
    own = sum(tables.cables[one.cable]["farad"] * one.length for one in run.leads)
    leak = _leak(lead, row, end)
    if leak < 0.05 and ohm <= HIGH_OHM and lead.screen != "worn":
        return Electric((), ohm, own, 1.0)
    found = []
    for one in run.beside:
        _, shape = current(one, tables, guess, end)
        thick = guess.constant("wire-diameter", end)
        metre = capacitive.two_wires(max(one.distance, LEAST_GAP * thick), thick)
        farad = metre * _along(one, run) * guess.constant("one-pole", end) * leak * _misfit(one, guess, end)
        found.append(Coupled(run.volts, farad, shape if shape.startswith("dimmer") else "sine"))
    pairs = tables.inputs[run.input.device]["balanced"] and row["build"] in CONNECTORS
    return Electric(tuple(found), ohm, own, guess.constant("capacitance-balance", end) if pairs else 1.0)


def _leak(lead: Lead, row, end: int) -> float:
    """Share of an electric field that gets through: all of it where no end of the screen is joined."""
    if lead.screen == "open at both ends":
        return 1.0
    return max(row["leak"][end], (0.03, 0.1, 0.3)[end]) if lead.screen == "worn" else row["leak"][end]
