"""Signals solved: what every listener hears of every source, how it is loaded, and what a difference
between chassis adds."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from math import log10

import numpy as np

from generator.catalogue.records import Limit, Listener, Source

from .assemble import CAPACITANCE, EARTHS, RESISTANCE, Assembly
from .circuit import Circuit, value_at
from .constants import BALANCE_HERTZ, GAIN_FLOOR, HERTZ, MAINS
from .limits import all_signals, each_signal, part_index
from .powering import Pair
from .readings import At
from .solve import closed_array, most_at, part_signal_amps, solve_ac
from .switches import sends, settings, switched_on

LOW, MID, HIGH = range(3)
HUM_HERTZ = (MAINS, BALANCE_HERTZ)  # what two chassis differ by, and what the balance is asked at
NOTHING = At("signal", 0, "")


@dataclass(frozen=True)
class Signals:
    """Solved signals of an assembly. Gains are complex volts per volt of open-circuit
    level, in all settled states.

    gains[s, l]: (corners, frequencies, states); bare[s, l]: (frequencies, states), nominal and without cable
    capacitance; open_output[s], output[s]: at the source's own output, unplugged (frequencies,) and plugged
    (frequencies, states); load[s]: impedance magnitude the connection puts across it at 1 kHz, ohm,
    (states,), and loads[s]: with and without it; hum[l]: V rms at a listener for each pair of powerings,
    (pairs, corners, home states), at MAINS; balance[l]: volts there for a volt between the chassis, (corners,
    HUM_HERTZ, home states), and `between` what the first pair's emf of a volt leaves there;
    settled, plugging: net voltages of every source, (corners, frequencies, states, sources, size),
    for what rated parts see.
    """

    assembly: Assembly
    gains: Mapping[tuple[str, str], np.ndarray]
    bare: Mapping[tuple[str, str], np.ndarray]
    open_output: Mapping[str, np.ndarray]
    output: Mapping[str, np.ndarray]
    load: Mapping[str, np.ndarray]
    loads: Mapping[str, tuple[np.ndarray, float]]
    hum: Mapping[str, np.ndarray]
    balance: Mapping[str, np.ndarray]
    between: np.ndarray
    values: np.ndarray
    settled: np.ndarray
    plugging: np.ndarray

    @cached_property
    def sources(self) -> dict[str, tuple[str, Source]]:
        """Every source by `place/id`, with its place."""
        return sources_of(self.assembly)

    @cached_property
    def levels(self) -> list[np.ndarray]:
        """The loudest level of every source that is switched on, V rms, for each setting."""
        ports = self.assembly.ports
        on = [switched_on(ports, setting) for setting in settings(ports)]
        return [
            np.array([loudest(s) * sends(each, place, s) for place, s in self.sources.values()])
            for each in on
        ]

    @cached_property
    def _peaks(self) -> dict:
        return {}

    def peak(self, place: str, limit: Limit, state: str, setting: int) -> tuple[float, At]:
        """What all sources at their loudest add to a rated part, V or A peak or W, and where; shown for the
        source that adds most. A device is built for its own signal; where a rating is not known, only what
        comes from elsewhere counts."""
        data = self.settled if state == "settled" else self.plugging
        foreign = np.array(
            [limit.settled is not None or there != place for there, _ in self.sources.values()]
        )
        level = self.levels[setting] * foreign
        if not data.size or not level.any():
            return 0.0, NOTHING
        key = place, limit.id, state, level.tobytes()
        if key not in self._peaks:
            self._peaks[key] = self._peak(place, limit, state == "settled", data, level)
        return self._peaks[key]

    def _peak(
        self, place: str, limit: Limit, settled: bool, data: np.ndarray, level: np.ndarray
    ) -> tuple[float, At]:
        corners, edges = (
            (signal_corners(self.assembly.circuit), range(len(HERTZ))) if settled else (("nominal",), (MID,))
        )
        each = each_signal(
            self.assembly.circuit,
            place,
            limit,
            data,
            [HERTZ[edge] for edge in edges],
            self.values[: len(corners)],
        )
        if each is None:
            return 0.0, NOTHING
        total = all_signals(limit, each, level)
        corner, edge, state = most_at(total)
        alone = [
            float(all_signals(limit, each, level * (np.arange(len(level)) == i))[corner, edge, state])
            for i in range(len(level))
        ]
        [main] = most_at(np.array(alone))
        first = 0 if settled else len(self.assembly.settled)
        return float(total[corner, edge, state]), At(
            "signal",
            state + first,
            "",
            corners[corner],
            hertz=HERTZ[edges[edge]],
            source=list(self.sources)[main],
            level=float(level[main]),
        )

    def stage_amps(self, name: str) -> tuple[list[str], np.ndarray]:
        """The emfs of a source's output stage, and what every source at its loudest drives through each, A
        rms: (stages, corners, frequencies, states, sources)."""
        place, source = self.sources[name]
        circuit = self.assembly.circuit
        stages = [
            i
            for part in source.drive
            if (i := part_index(circuit, place, part)) is not None and circuit.parts[i].kind == "emf"
        ]
        level = np.array([loudest(s) for _, s in self.sources.values()])
        return (
            [circuit.parts[i].id for i in stages],
            np.array(
                [
                    np.abs(part_signal_amps(circuit, self.values, HERTZ, self.settled, i)) * level
                    for i in stages
                ]
            ),
        )

    def stage_at(self, part: str, corner: int, edge: int, state: int, source: str) -> At:
        """Where a current of `stage_amps` was found, shown for one source."""
        level = loudest(self.sources[source][1])
        return At(
            "signal",
            state,
            part,
            signal_corners(self.assembly.circuit)[corner],
            hertz=HERTZ[edge],
            source=source,
            level=level,
        )


def decibels(ratio: float) -> float:
    """20 log10 of a magnitude, never below GAIN_FLOOR."""
    return 20 * log10(max(abs(ratio), GAIN_FLOOR))


def kept_in_sum(gains: np.ndarray) -> np.ndarray:
    """The share of some signals' sizes, (signals, states), that is left when they are added with
    their phases, (states,)."""
    return np.abs(gains.sum(axis=0)) / np.abs(gains).sum(axis=0)


def sources_of(assembly: Assembly) -> dict[str, tuple[str, Source]]:
    """Every source by `place/id`, with its place."""
    return {f"{place}/{s.id}": (place, s) for place, port in assembly.ports.items() for s in port.sources}


def listeners_of(assembly: Assembly) -> dict[str, tuple[str, Listener]]:
    """Every listener by `place/id`, with its place."""
    return {f"{place}/{l.id}": (place, l) for place, port in assembly.ports.items() for l in port.listeners}


def signal_corners(circuit: Circuit) -> tuple[str, ...]:
    """The tolerance corners signals are solved at."""
    return ("nominal", "skewed")[: 1 + any(part.skew and part.match for part in circuit.parts)]


def drive_of(place: str, source: Source) -> dict[str, float]:
    """What one volt of open-circuit level is to the parts that make it."""
    return {f"{place}/{part}": share for part, share in source.drive.items()}


def loudest(source: Source) -> float:
    """The highest level a source is known to give, V rms."""
    return source.maximum or source.nominal or 0.0


def solve_signals(assembly: Assembly) -> Signals:
    """Solve every signal question of an assembly."""
    circuit, sources, listeners = assembly.circuit, sources_of(assembly), listeners_of(assembly)
    values = np.array(
        [[value_at(part, corner) for part in circuit.parts] for corner in signal_corners(circuit)]
    )
    states = closed_array([*assembly.settled, assembly.apart], len(circuit.switches))
    moving = closed_array(assembly.plugging, len(circuit.switches))
    drives = [drive_of(place, s) for place, s in sources.values()]
    probes = [{tuple(f"{place}/{node}" for node in s.output): -1.0} for place, s in sources.values()]

    found = solve_ac(circuit, values, HERTZ, states, drives + probes)
    across = lambda data, net, place, pair: (
        data[..., net[f"{place}/{pair[0]}"]] - data[..., net[f"{place}/{pair[1]}"]]
    )
    gains, bare, open_output, output, load, loads = {}, {}, {}, {}, {}, {}
    lean = np.array([[value_at(part, "nominal") for part in assembly.bare.parts]])
    bare_found = solve_ac(assembly.bare, lean, HERTZ, states[:-1], drives)
    for column, (name, (place, source)) in enumerate(sources.items()):
        for other, (there, listener) in listeners.items():
            gains[name, other] = across(found[:, :, :-1, column], circuit.nets, there, listener.between)
            bare[name, other] = across(
                bare_found[0, :, :, column], assembly.bare.nets, there, listener.between
            )
        at_output = across(found[0, :, :, column], circuit.nets, place, source.output)
        open_output[name], output[name] = at_output[:, -1], at_output[:, :-1]
        probed = across(found[0, MID, :, len(sources) + column], circuit.nets, place, source.output)
        load[name] = 1 / np.maximum(np.abs(1 / probed[:-1] - 1 / probed[-1]), GAIN_FLOOR)
        loads[name] = np.abs(probed[:-1]), float(abs(probed[-1]))

    hum, balance, between = _hum(assembly, listeners, values)
    nothing = np.zeros((1, 1, 0, len(sources), circuit.size))
    plugging = (
        solve_ac(circuit, values[:1], HERTZ[MID : MID + 1], moving, drives)
        if len(moving) and drives
        else nothing
    )
    return Signals(
        assembly,
        gains,
        bare,
        open_output,
        output,
        load,
        loads,
        hum,
        balance,
        between,
        values,
        found[:, :, :-1, : len(sources)],
        plugging,
    )


def _hum(assembly: Assembly, listeners: Mapping, values: np.ndarray):
    """What a difference between the chassis brings to every listener: in volts for every pair of powerings,
    and for a volt between them."""
    linked = assembly.linked
    if not linked:
        return {}, {}, np.zeros(0)
    home = closed_array(assembly.home, len(linked.switches))
    rows = np.array(
        [powered(linked, row, pair) for pair in assembly.pairs for row in _padded(assembly, values)]
    )
    found = solve_ac(linked, rows, HUM_HERTZ, home, [{EARTHS: 1.0}])[:, :, :, 0]
    found = found.reshape(len(assembly.pairs), len(values), *found.shape[1:])
    near, far = (linked.nets[f"{place}/chassis"] for place in ("from", "into"))
    between = np.maximum(np.abs(found[0, ..., near] - found[0, ..., far]), GAIN_FLOOR)
    volts = np.array([pair.volts for pair in assembly.pairs])[:, None, None]
    hum, balance = {}, {}
    for name, (place, listener) in listeners.items():
        a, b = (linked.nets[f"{place}/{node}"] for node in listener.between)
        heard = np.abs(found[..., a] - found[..., b])
        hum[name], balance[name] = heard[:, :, 0] * volts, heard[0] / between
    return hum, balance, between


def _padded(assembly: Assembly, values: np.ndarray) -> np.ndarray:
    """Values of the circuit's parts for the linked one, which has three more."""
    added = len(assembly.linked.parts) - values.shape[1]
    return np.hstack([values, np.ones((len(values), added))])


def powered(linked: Circuit, values: np.ndarray, pair: Pair) -> np.ndarray:
    """Values with what limits the current between the chassis as a pair of powerings has it, (parts,)."""
    given = {RESISTANCE: pair.ohm, CAPACITANCE: pair.farad}
    return np.array([given.get(part.id, value) for part, value in zip(linked.parts, values)])
