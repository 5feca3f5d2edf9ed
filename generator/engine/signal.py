"""Signals solved: what every listener hears of every source, how it is loaded, and what a difference between chassis adds."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import log10

import numpy as np

from generator.catalogue.records import Limit, Listener, Source

from .assemble import EARTHS, Assembly
from .circuit import Circuit, value_at
from .direct import part_index
from .solve import closed_array, part_signal_amps, solve_ac

HERTZ = (20.0, 1000.0, 20000.0)
LOW, MID, HIGH = range(3)
FLOOR = 1e-12  # a gain below this is nothing: -240 dB


@dataclass(frozen=True)
class Signals:
    """Solved signals. Gains are complex volts per volt of open-circuit level.

    gains[s, l]: (corners, frequencies, home states); bare[s, l]: the same at nominal without cable capacitance;
    open_output[s], output[s]: at the source's own output, unplugged (frequencies,) and plugged (frequencies, home states);
    load[s]: smallest impedance magnitude seen at 1 kHz, ohm; hum[l]: (corners, frequencies, home states) per volt between chassis.
    peaks[place, limit, state]: what all sources at their loudest add to a rated part (V or A peak, W); forced[s], driven[s]: the current
    that other sources, and the source itself, drive through its output stage at their loudest (A rms).
    """

    gains: Mapping[tuple[str, str], np.ndarray]
    bare: Mapping[tuple[str, str], np.ndarray]
    open_output: Mapping[str, np.ndarray]
    output: Mapping[str, np.ndarray]
    load: Mapping[str, float]
    hum: Mapping[str, np.ndarray]
    peaks: Mapping[tuple[str, str, str], float]
    forced: Mapping[str, float]
    driven: Mapping[str, float]


def decibels(ratio: float) -> float:
    """20 log10 of a magnitude, never below FLOOR."""
    return 20 * log10(max(abs(ratio), FLOOR))


def kept_in_sum(gains: np.ndarray) -> np.ndarray:
    """The share of some signals' sizes, (signals, home states), that is left when they are added with their phases, (home states,)."""
    return np.abs(gains.sum(axis=0)) / np.abs(gains).sum(axis=0)


def sources_of(assembly: Assembly) -> dict[str, tuple[str, Source]]:
    """Every source by `place/id`, with its place."""
    return {f"{place}/{s.id}": (place, s) for place, port in assembly.ports.items() for s in port.sources}


def listeners_of(assembly: Assembly) -> dict[str, tuple[str, Listener]]:
    """Every listener by `place/id`, with its place."""
    return {f"{place}/{l.id}": (place, l) for place, port in assembly.ports.items() for l in port.listeners}


def signal_corners(circuit: Circuit) -> tuple[str, ...]:
    """The tolerance corners signals are solved at."""
    return ("nominal", "skewed")[:1 + any(part.skew and part.match for part in circuit.parts)]


def drive_of(place: str, source: Source) -> dict[str, float]:
    """What one volt of open-circuit level is to the parts that make it."""
    return {f"{place}/{part}": share for part, share in source.drive.items()}


def solve_signals(assembly: Assembly) -> Signals:
    """Solve every signal question of an assembly."""
    circuit, sources, listeners = assembly.circuit, sources_of(assembly), listeners_of(assembly)
    values = np.array([[value_at(part, corner) for part in circuit.parts] for corner in signal_corners(circuit)])
    nothing = tuple(False for _ in circuit.switches)
    home = closed_array([*assembly.home, nothing], len(circuit.switches))
    drives = [drive_of(place, s) for place, s in sources.values()]
    probes = [{tuple(f"{place}/{node}" for node in s.output): -1.0} for place, s in sources.values()]

    found = solve_ac(circuit, values, HERTZ, home, drives + probes)
    across = lambda data, net, place, pair: data[..., net[f"{place}/{pair[0]}"]] - data[..., net[f"{place}/{pair[1]}"]]
    gains, bare, open_output, output, load = {}, {}, {}, {}, {}
    lean = np.array([[value_at(part, "nominal") for part in assembly.bare.parts]])
    bare_found = solve_ac(assembly.bare, lean, HERTZ, home[:-1], drives)
    for column, (name, (place, source)) in enumerate(sources.items()):
        for other, (there, listener) in listeners.items():
            gains[name, other] = across(found[:, :, :-1, column], circuit.nets, there, listener.between)
            bare[name, other] = across(bare_found[0, :, :, column], assembly.bare.nets, there, listener.between)
        at_output = across(found[0, :, :, column], circuit.nets, place, source.output)
        open_output[name], output[name] = at_output[:, -1], at_output[:, :-1]
        probed = across(found[0, MID, :, len(sources) + column], circuit.nets, place, source.output)
        load[name] = _load(probed[:-1], probed[-1])

    hum = {}
    if assembly.linked:
        linked = assembly.linked
        linked_values = np.hstack([values, np.zeros((len(values), 1))])
        hummed = solve_ac(linked, linked_values, HERTZ, home[:-1], [{EARTHS: 1.0}])
        hum = {name: across(hummed[:, :, :, 0], linked.nets, place, l.between) for name, (place, l) in listeners.items()}
    peaks, forced, driven = _peaks(assembly, sources, values, found[:, :, :-1, :len(sources)], drives)
    return Signals(gains, bare, open_output, output, load, hum, peaks, forced, driven)


def _load(plugged: np.ndarray, unplugged: complex) -> float:
    """The impedance the connection adds across an output, from the impedance there with and without it."""
    added = np.abs(1 / plugged - 1 / unplugged)
    return float(1 / max(added.max(), FLOOR))


def loudest(source: Source) -> float:
    """The highest level a source is known to give, V rms."""
    return source.maximum or source.nominal or 0.0


def _peaks(assembly: Assembly, sources: Mapping, values: np.ndarray, home: np.ndarray, drives: Sequence):
    """What every rated part sees of all sources at their loudest (V or A peak, W), and the currents of the output stages (A rms)."""
    circuit = assembly.circuit
    moving = closed_array(assembly.plugging, len(circuit.switches))
    plugging = solve_ac(circuit, values[:1], HERTZ[MID:MID + 1], moving, drives) if len(moving) and drives else home[:1, :1, :0]
    level = np.array([loudest(s) for _, s in sources.values()])
    peaks, forced, driven = {}, {}, {}
    for state, data, hertz, cases in (("settled", home, HERTZ, values), ("plugging", plugging, HERTZ[MID:MID + 1], values[:1])):
        if not data.size:
            continue
        for place, record in assembly.places.items():
            for limit in record.network.limits:
                counted = counted_levels(sources, place, limit)
                peaks[place, limit.id, state] = float(limit_signal(assembly, place, limit, data, hertz, cases, counted).max())
    for column, (name, (place, source)) in enumerate(sources.items()):
        stages = [i for part in source.drive if (i := part_index(circuit, place, part)) is not None and circuit.parts[i].kind == "emf"]
        amps = np.array([np.abs(part_signal_amps(circuit, values, HERTZ, home, i)) * level for i in stages])
        if amps.size:
            others = [i for i, (there, _) in enumerate(sources.values()) if there != place]
            forced[name] = float(amps[..., others].sum(axis=-1).max())
            driven[name] = float(amps[..., column].max())
    return peaks, forced, driven


def counted_levels(sources: Mapping[str, tuple[str, Source]], place: str, limit: Limit) -> np.ndarray:
    """The loudest level of every source that counts against a limit, V rms. A device is built for its own signal; where a rating is not
    known, only what comes from elsewhere counts."""
    return np.array([loudest(s) * (limit.settled is not None or there != place) for there, s in sources.values()])


def limit_signal(assembly: Assembly, place: str, limit: Limit, data: np.ndarray, hertz: Sequence[float], values: np.ndarray,
                 level: np.ndarray) -> np.ndarray:
    """What all sources at `level` (V rms) together put on a limit, V or A peak or W: (corners, frequencies, states), or (1,) where nothing counts."""
    circuit = assembly.circuit
    index = part_index(circuit, place, limit.part) if limit.part else None
    # Windings are rated for direct current, which pulls one way; signal moves them to and fro.
    direct_only = limit.quantity == "reverse" or index is not None and limit.quantity == "amps" and circuit.parts[index].coil
    if direct_only or limit.part and index is None:
        return np.zeros(1)
    a, b = circuit.ends[index] if limit.part else (circuit.nets[f"{place}/{node}"] for node in limit.between)
    volts = np.abs(data[..., a] - data[..., b]) @ level
    if limit.quantity == "volts":
        return volts * np.sqrt(2)
    amps = np.abs(part_signal_amps(circuit, values, hertz, data, index)) @ level
    return amps * np.sqrt(2) if limit.quantity == "amps" else amps * volts


