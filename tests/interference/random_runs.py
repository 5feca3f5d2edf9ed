"""Runs nobody would lay: anything beside anything, for laws that hold whatever the run is."""

from random import Random

from generator.interference.run import (
    COLD,
    LIES,
    SCREENS,
    SOCKETS,
    SPARE,
    Beside,
    Device,
    Lead,
    Run,
    Spare,
    Thing,
    Transmitter,
)
from generator.interference.tables import Tables

POWERED = ("earthed", "insulated", "battery")


def even(rng: Random, low: float, high: float) -> float:
    """Evenly over the decades."""
    return low * (high / low) ** rng.random()


def random_run(rng: Random, tables: Tables) -> Run:
    """Any run that a file could describe."""
    source, input = (
        Device(rng.choice(list(rows)), rng.choice(POWERED), rng.random() < 0.1)
        for rows in (tables.sources, tables.inputs)
    )
    leads = tuple(random_lead(rng, tables) for _ in range(rng.randint(1, 3)))
    batteries = source.powered == input.powered == "battery"
    volts, hertz = rng.choice(((230.0, 50.0), (120.0, 60.0)))
    length = sum(lead.length for lead in leads)
    most = 1.0 if source.powered == input.powered == "earthed" else 1e-3
    return Run(
        source,
        input,
        leads,
        volts=volts,
        hertz=hertz,
        sockets="same battery"
        if batteries and rng.random() < 0.5
        else rng.choice([one for one in SOCKETS if one != "same battery"]),
        dimmers=rng.random() < 0.2,
        held=rng.random() < 0.2,
        measured_volts=even(rng, 1e-3, 200) if rng.random() < 0.2 else 0.0,
        measured_amps=even(rng, 1e-6, most) if rng.random() < 0.2 else 0.0,
        bond=even(rng, 0.01, 1) if rng.random() < 0.2 else 0.0,
        transformer=rng.random() < 0.1,
        ferrite=even(rng, 50, 5000) if rng.random() < 0.2 else 0.0,
        beside=tuple(random_beside(rng, tables, length) for _ in range(rng.randint(0, 3))),
        spare=Spare(rng.choice(SPARE), rng.randint(1, 30), even(rng, 0.1, 1), even(rng, 0.05, 5))
        if rng.random() < 0.3
        else None,
        things=tuple(
            Thing(rng.choice(list(tables.things)), even(rng, 0.03, 5)) for _ in range(rng.randint(0, 2))
        ),
        transmitters=tuple(
            Transmitter(rng.choice(list(tables.transmitters)), even(rng, 0.02, 3000))
            for _ in range(rng.randint(0, 2))
        ),
        assume={"loop-width": even(rng, 0.1, 5)} if rng.random() < 0.2 else {},
    )


def random_lead(rng: Random, tables: Tables) -> Lead:
    """Mostly whole."""
    cable = rng.choice(list(tables.cables))
    whole = tables.cables[cable]["screen"] == "none" or rng.random() < 0.6
    cold = rng.choice(COLD) if rng.random() < 0.3 else "through"
    return Lead(cable, even(rng, 0.2, 150), "whole" if whole else rng.choice(SCREENS), cold)


def random_beside(rng: Random, tables: Tables, length: float) -> Beside:
    """A mains cable within what it carries."""
    cable = rng.choice(list(tables.mains))
    amps = even(rng, 0.1, tables.mains[cable]["carries"]) if rng.random() < 0.6 else 0.0
    along = length * rng.random() if rng.random() < 0.7 else 0.0
    return Beside(cable, rng.choice(list(tables.loads)), amps, even(rng, 0.005, 5), along, rng.choice(LIES))
