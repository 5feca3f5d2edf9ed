"""What length costs for any two devices: treble of sound against length for each kind of cable, and
where impedance begins to count.
"""

from __future__ import annotations

from dataclasses import dataclass

from .formulas import length
from .formulas.basics import parallel
from .run import Run
from .tables import Tables

TOP = 20e3  # Hz
SEEN = 0.5  # dB at TOP that a careful listener may miss; the length for it is told
LENGTHS = (1.0, 3.0, 10.0, 30.0, 100.0, 300.0)


@dataclass(frozen=True)
class Reach:
    """One cable: treble left at 20 kHz (dB) at each of LENGTHS, and the metres at which SEEN is lost."""

    cable: str
    treble: tuple[float, ...]
    metres: float


def reaches(
    source_ohm: float, input_ohm: float, tables: Tables, cables: tuple[str, ...] | None = None
) -> tuple[Reach, ...]:
    """For a source and an input, every cable or those named. Source and input stand side by side to
    the cable's capacitance.
    """
    ohm = parallel(source_ohm, input_ohm)
    found = []
    for id in cables or tuple(tables.cables):
        farad = tables.cables[id]["farad"]
        treble = tuple(length.treble(ohm, farad, metres, TOP) for metres in LENGTHS)
        found.append(Reach(id, treble, length.length_for(ohm, farad, TOP, SEEN)))
    return tuple(found)


def treble(run: Run, tables: Tables) -> float:
    """dB left at 20 kHz at the end of a run."""
    source, input = tables.sources[run.source.device], tables.inputs[run.input.device]
    farad = sum(tables.cables[lead.cable]["farad"] * lead.length for lead in run.leads)
    return length.treble(parallel(source["ohm"], input["ohm"]), farad, 1.0, TOP)


@dataclass(frozen=True)
class Impedance:
    """One kind of signal: metres beyond which a lead is no longer short for it, the share that comes back
    from a lead of another
    impedance, and the metres its own cable is used for."""

    kind: str
    short: float
    back: float
    metres: float


def impedances(tables: Tables, cable_ohm: float) -> tuple[Impedance, ...]:
    """Every kind of signal, on a cable of `cable_ohm`."""
    return tuple(
        Impedance(
            id,
            length.long_for(row["hertz"], row["velocity"]),
            length.reflection(cable_ohm, row["ohm"]),
            row["metres"],
        )
        for id, row in tables.lengths.items()
    )
