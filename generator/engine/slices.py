"""The one case a reading was found in, solved again with every voltage and current: a slice of
the stack it came from."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from .assemble import EARTHS, Assembly
from .cases import Case, direct_case, probe_case, signal_case
from .circuit import resistive, value_at
from .constants import TEST_AMPS
from .hanging import shared
from .instants import CORNER, Capacitors
from .readings import At, Reading
from .signal import drive_of, powered, sources_of
from .solve import closed_array, solve_dc
from .switches import drive_values, live_volts, settings


def case_of(assembly: Assembly, reading: Reading) -> Case | None:
    """The case of a reading; None where no voltage or current decides."""
    if reading.at is None:
        return None
    case = CASES[reading.at.nature](assembly, reading, reading.at)
    return replace(case, number=reading.value, terms=reading.terms)


def _direct(assembly: Assembly, reading: Reading, at: At) -> Case:
    circuit, state = assembly.circuit, assembly.states[at.state]
    live = live_volts(circuit, assembly.ports, settings(assembly.ports)[reading.setting])
    values = drive_values(circuit, live, at.corner, at.off)
    closed = closed_array([state], len(circuit.switches))
    solution = solve_dc(circuit, values[None], closed)
    if at.shared:
        solution = shared(solution, closed)
    return direct_case(solution, 0, 0, state, at.corner, at.decides)


def _instant(assembly: Assembly, reading: Reading, at: At) -> Case:
    capacitors, state = Capacitors(assembly), assembly.states[at.state]
    held = capacitors.settled()[:, at.before[0], at.before[1]]
    closed = closed_array([state], len(assembly.circuit.switches))
    solution = capacitors.solve([capacitors.row(at.driven)], held[:, None, None], closed)
    for k, name in enumerate(capacitors.large):  # an emf of what the capacitor holds
        solution.values[0, capacitors.circuit.index[name]] = held[k]
    decides = at.decides
    if isinstance(decides, tuple):
        decides = tuple(f"net{assembly.circuit.nets[node]}" for node in decides)
    elif decides not in capacitors.circuit.index or decides in capacitors.large and reading.unit == "V":
        # volts across a part that is not there in this instant, or is two
        decides = tuple(f"net{net}" for net in assembly.circuit.ends[assembly.circuit.index[decides]])
    return direct_case(solution, 0, 0, state, CORNER, decides, nature="instant", original=assembly.circuit)


def _signal(assembly: Assembly, reading: Reading, at: At) -> Case:
    circuit = assembly.bare if at.bare else assembly.circuit
    values = np.array([value_at(part, at.corner) for part in circuit.parts])
    # A side stands for all its devices: a lead may bring several together.
    sources = {
        name: pair
        for name, pair in sources_of(assembly).items()
        if name == at.source or name.split("/")[0].rstrip("23456789") == at.source
    }
    drive = {
        part: share for place, source in sources.values() for part, share in drive_of(place, source).items()
    }
    return signal_case(
        circuit,
        values,
        assembly.states[at.state],
        at.corner,
        drive,
        at.hertz,
        at.decides,
        level=at.level,
        source=at.source,
    )


def _hum(assembly: Assembly, reading: Reading, at: At) -> Case:
    linked = assembly.linked
    values = powered(
        linked, np.array([value_at(part, at.corner) for part in linked.parts]), assembly.pairs[at.pair]
    )
    return signal_case(
        linked,
        values,
        assembly.home[at.state],
        at.corner,
        {EARTHS: 1.0},
        at.hertz,
        at.decides,
        level=at.level,
        source=EARTHS,
    )


def _test(assembly: Assembly, reading: Reading, at: At) -> Case:
    lean = resistive(assembly.circuit)
    values = np.array([part.value.nominal for part in lean.parts])
    return probe_case(
        lean, assembly.circuit, values, assembly.home[at.state], at.decides, TEST_AMPS * at.level
    )


CASES = {"direct": _direct, "instant": _instant, "signal": _signal, "hum": _hum, "test": _test}
