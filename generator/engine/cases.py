"""One solved case of a connection: the setting, corner and switch state at which a reading got its number,
with every voltage and current."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from .circuit import Circuit
from .constants import HERTZ
from .readings import Decides
from .solve import Solution, closed_array, part_amps, part_signal_amps, solve_ac


@dataclass(frozen=True)
class Case:
    """`unknowns` (size,) and `amps` (parts,) are real for direct current, complex for signal (rms). `number`
    is the reading found again; `terms` are the numbers it is made of, as (words, value, unit). `level` is
    the open-circuit volts of the source that is shown (the amperes of a test current), `hertz` its
    frequency, None for direct current; `spectrum` (frequencies, size) are net voltages per unit of level at
    HERTZ. `drive` is what solve_ac was given, for one unit of level. `nodes` says which nodes of the
    connection each net is made of."""

    nature: str  # direct | instant | signal | test
    circuit: Circuit
    values: np.ndarray
    closed: tuple[bool, ...]
    corner: str
    unknowns: np.ndarray
    amps: np.ndarray
    decides: Decides
    number: float = 0.0
    terms: tuple[tuple[str, float, str], ...] = ()
    hertz: float | None = None
    level: float = 1.0
    # place/id of the source that is shown; a place alone stands for all its sources, sending alike
    source: str = ""
    spectrum: np.ndarray | None = None
    drive: Mapping = field(default_factory=dict)
    nodes: Mapping[int, tuple[str, ...]] = field(default_factory=dict)

    def volts(self, a: str, b: str) -> complex:
        """Voltage of node a over node b."""
        return self.unknowns[self.circuit.nets[a]] - self.unknowns[self.circuit.nets[b]]


def nodes_of(circuit: Circuit, original: Circuit | None = None) -> dict[int, tuple[str, ...]]:
    """Net -> nodes. Nets of a circuit made over from `original` are called `net0` ...; they get
    the original's nodes."""
    found: dict[int, list[str]] = {net: [] for net in range(circuit.net_count)}
    known = nodes_of(original) if original else {}
    for name, net in circuit.nets.items():
        number = name.removeprefix("net")
        found[net] += known[int(number)] if original and number.isdigit() else [name]
    return {net: tuple(names) for net, names in found.items()}


def direct_case(
    solution: Solution,
    drive: int,
    state: int,
    closed: Sequence[bool],
    corner: str,
    decides: Decides,
    nature: str = "direct",
    original: Circuit | None = None,
) -> Case:
    """A case out of a direct-current solution."""
    circuit = solution.circuit
    amps = np.array([part_amps(solution, i)[drive, state] for i in range(len(circuit.parts))])
    return Case(
        nature,
        circuit,
        solution.values[drive],
        tuple(closed),
        corner,
        solution.unknowns[drive, state],
        amps,
        decides,
        nodes=nodes_of(circuit, original),
    )


def signal_case(
    circuit: Circuit,
    values: np.ndarray,
    closed: Sequence[bool],
    corner: str,
    drive: Mapping,
    hertz: float,
    decides: Decides,
    level: float = 1.0,
    source: str = "",
) -> Case:
    """One drive in one state, solved at HERTZ and shown at `hertz`."""
    shown = (hertz, *HERTZ)
    found = solve_ac(circuit, values[None], shown, closed_array([closed], len(circuit.switches)), [drive])[
        :, :, 0, 0
    ]
    amps = np.array(
        [
            part_signal_amps(circuit, values[None], shown, found, i)[0, 0]
            + (drive.get(part.id, 0.0) if part.kind == "sink" else 0.0)
            for i, part in enumerate(circuit.parts)
        ]
    )
    return Case(
        "signal",
        circuit,
        values,
        tuple(closed),
        corner,
        found[0, 0] * level,
        amps * level,
        decides,
        hertz=hertz,
        level=level,
        source=source,
        spectrum=found[0, 1:],
        drive=drive,
        nodes=nodes_of(circuit),
    )


def probe_case(
    circuit: Circuit,
    original: Circuit,
    values: np.ndarray,
    closed: Sequence[bool],
    nodes: tuple[str, str],
    level: float,
) -> Case:
    """A test current of `level` amperes into the first of `nodes` and out of the second, all sources quiet:
    the voltage tells the resistance."""
    drive = {nodes: -1.0}
    found = solve_ac(circuit, values[None], [0.0], closed_array([closed], len(circuit.switches)), [drive])[
        0, 0, 0, 0
    ].real
    amps = np.array(
        [
            part_signal_amps(circuit, values[None], [0.0], found[None], i)[0].real
            for i in range(len(circuit.parts))
        ]
    )
    return Case(
        "test",
        circuit,
        values,
        tuple(closed),
        "nominal",
        found * level,
        amps * level,
        nodes,
        hertz=0.0,
        level=level,
        drive=drive,
        nodes=nodes_of(circuit, original),
    )
