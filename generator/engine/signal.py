"""Signal readings: what every listener hears of every source, how it is loaded, and what a difference between chassis adds."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import inf, log10

import numpy as np

from generator.catalogue.records import Listener, Port, Source

from .assemble import EARTHS, Assembly
from .circuit import value_at
from .direct import part_index
from .readings import Reading
from .solve import closed_array, part_signal_amps, solve_ac

HERTZ = (20.0, 1000.0, 20000.0)
LOW, MID, HIGH = range(3)
FLOOR = 1e-12  # a gain below this is nothing: -240 dB
AUDIO = ("microphone", "line", "instrument", "headphone", "loudspeaker")


@dataclass(frozen=True)
class Signals:
    """Solved signals. Gains are complex volts per volt of open-circuit level.

    gains[s, l]: (corners, frequencies, home states); bare[s, l]: the same at nominal without cable capacitance;
    open_output[s], output[s]: at the source's own output, unplugged (frequencies,) and plugged (frequencies, home states);
    load[s]: smallest impedance magnitude seen at 1 kHz, ohm; hum[l]: (corners, frequencies, home states) per volt between chassis.
    """

    gains: Mapping[tuple[str, str], np.ndarray]
    bare: Mapping[tuple[str, str], np.ndarray]
    open_output: Mapping[str, np.ndarray]
    output: Mapping[str, np.ndarray]
    load: Mapping[str, float]
    hum: Mapping[str, np.ndarray]
    peaks: Mapping[tuple[str, str, str], float]
    forced: Mapping[str, float]


def decibels(ratio: float) -> float:
    """20 log10 of a magnitude, never below FLOOR."""
    return 20 * log10(max(abs(ratio), FLOOR))


def solve_signals(assembly: Assembly) -> Signals:
    """Solve every signal question of an assembly."""
    ports, circuit = assembly.ports, assembly.circuit
    sources = {f"{place}/{s.id}": (place, s) for place, port in ports.items() for s in port.sources}
    listeners = {f"{place}/{l.id}": (place, l) for place, port in ports.items() for l in port.listeners}
    skewed = any(part.skew and part.match for part in circuit.parts)
    values = np.array([[value_at(part, corner) for part in circuit.parts] for corner in ("nominal", "skewed")[:1 + skewed]])
    nothing = tuple(False for _ in circuit.switches)
    home = closed_array([*assembly.home, nothing], len(circuit.switches))
    drives = [{f"{place}/{part}": share for part, share in s.drive.items()} for place, s in sources.values()]
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
    peaks, forced = _peaks(assembly, sources, values, found[:, :, :-1, :len(sources)], drives)
    return Signals(gains, bare, open_output, output, load, hum, peaks, forced)


def _load(plugged: np.ndarray, unplugged: complex) -> float:
    """The impedance the connection adds across an output, from the impedance there with and without it."""
    added = np.abs(1 / plugged - 1 / unplugged)
    return float(1 / max(added.max(), FLOOR))


def loudest(source: Source) -> float:
    """The highest level a source is known to give, V rms."""
    return source.maximum or source.nominal or 0.0


def _peaks(assembly: Assembly, sources: Mapping, values: np.ndarray, home: np.ndarray, drives: Sequence):
    """What every rated part sees of all sources at their loudest (V or A peak, W), and the current each output has forced into it (A rms)."""
    circuit = assembly.circuit
    moving = closed_array(assembly.plugging, len(circuit.switches))
    plugging = solve_ac(circuit, values[:1], HERTZ[MID:MID + 1], moving, drives) if len(moving) and drives else home[:1, :1, :0]
    level = np.array([loudest(s) for _, s in sources.values()])
    peaks, forced = {}, {}
    for state, data, hertz, cases in (("settled", home, HERTZ, values), ("plugging", plugging, HERTZ[MID:MID + 1], values[:1])):
        if not data.size:
            continue
        for place, record in assembly.places.items():
            for limit in record.network.limits:
                peaks[place, limit.id, state] = float(_limit_signal(assembly, place, limit, data, hertz, cases, level).max())
    for name, (place, source) in sources.items():
        others = [i for i, (there, _) in enumerate(sources.values()) if there != place]
        if not others:
            continue
        indexes = [i for part in source.drive if (i := part_index(circuit, place, part)) is not None and circuit.parts[i].kind == "emf"]
        amps = [np.abs(part_signal_amps(circuit, values, HERTZ, home, i))[..., others] @ level[others] for i in indexes]
        forced[name] = float(max((a.max() for a in amps), default=0.0))
    return peaks, forced


def _limit_signal(assembly: Assembly, place: str, limit, data: np.ndarray, hertz: Sequence[float], values: np.ndarray, level: np.ndarray) -> np.ndarray:
    circuit = assembly.circuit
    index = part_index(circuit, place, limit.part) if limit.part else None
    if limit.part and index is None:
        return np.zeros(1)
    a, b = circuit.ends[index] if limit.part else (circuit.nets[f"{place}/{node}"] for node in limit.between)
    volts = np.abs(data[..., a] - data[..., b]) @ level
    if limit.quantity == "volts":
        return volts * np.sqrt(2)
    amps = np.abs(part_signal_amps(circuit, values, hertz, data, index)) @ level
    return amps * np.sqrt(2) if limit.quantity == "amps" else amps * volts


def signal_readings(assembly: Assembly, signals: Signals) -> list[Reading]:
    """Readings in both directions between From and Into."""
    start, target = assembly.places["from"], assembly.places["into"]
    readings = []
    for here, there, device, other in (("from", "into", start, target), ("into", "from", target, start)):
        if device.sources and other.listeners:
            readings += _direction(assembly, signals, here, there, device, other)
        elif device.sources and (other.sources or device.listeners):
            readings += [_unheard(source, device, other) for source in device.sources]
    if not (start.sources and target.listeners) and not (target.sources and start.listeners):
        readings.append(Reading("path-gain", "connection", "connection", decibels(0), "dB", "signal", words={"device": start.name, "other": target.name}, flags={"cause": "nothing"}))
    readings += _outputs(assembly, signals)
    readings += _screen(assembly)
    return readings


def wanted(sources: Sequence[Source], listeners: Sequence[Listener]) -> list[tuple[Source, Listener]]:
    """Which source should reach which listener: the same channel where both have it, else everything it meets."""
    source_channels, listener_channels = {s.channel for s in sources}, {l.channel for l in listeners}
    return [(s, l) for s in sources for l in listeners
            if s.channel == l.channel or (s.channel not in listener_channels and l.channel not in source_channels)]


def _direction(assembly: Assembly, signals: Signals, here: str, there: str, device: Port, other: Port) -> Iterator[Reading]:
    pairs = wanted(device.sources, other.listeners) or [(s, l) for s in device.sources for l in other.listeners]
    names = {"device": device.name, "other": other.name}
    if any(_family(s.kind) != _family(l.kind) for s, l in pairs):
        s, l = next((s, l) for s, l in pairs if _family(s.kind) != _family(l.kind))
        yield Reading("kinds-apart", here, "signal", 1.0, "", "signal", words={**names, "sent": s.kind, "wanted": l.kind})
        return
    gain = {(s.id, l.id): float(np.abs(signals.bare[f"{here}/{s.id}", f"{there}/{l.id}"][MID]).min()) for s, l in pairs}
    best = max(gain.values())
    shorted = any(_drop(signals, f"{here}/{s.id}") > 40 for s in device.sources)
    yield Reading("path-gain", here, "connection", decibels(best), "dB", "signal", words=names, flags={"cause": "shorted" if shorted else "open"})
    heard = []
    for s, l in pairs:
        relative = decibels(gain[s.id, l.id]) - decibels(best)
        words = {**names, "channel": s.channel, "listener": l.channel}
        yield Reading("side-gain", f"{here}/{s.id}>{l.id}", f"{s.channel} to {l.channel}", relative, "dB", "signal", words=words)
        if relative > -30 and decibels(best) > -60:
            heard.append((s, l))
    for s in device.sources:
        yield from _source(signals, f"{here}/{s.id}", s, names)
        if all(s is not paired for paired, _ in pairs):
            yield _unheard(s, device, other)
    for s, l in heard:
        yield from _pair(signals, f"{here}/{s.id}", f"{there}/{l.id}", s, l, names)
    for l in other.listeners:
        yield from _listener(signals, here, there, l, [s for s, hearing in heard if hearing is l], device, names)


def _unheard(source: Source, device: Port, other: Port) -> Reading:
    return Reading("unheard", f"{device.id}/{source.id}", source.channel, 1.0, "", "signal", words={"device": device.name, "channel": source.channel, "other": other.name})


def _family(kind: str) -> str:
    return "audio" if kind in AUDIO else kind


def _drop(signals: Signals, name: str) -> float:
    """Level lost at a source's own output because of what is plugged into it, dB at 1 kHz."""
    return decibels(signals.open_output[name][MID]) - decibels(float(np.abs(signals.output[name][MID]).min()))


def _source(signals: Signals, name: str, s: Source, names: Mapping[str, str]) -> Iterator[Reading]:
    words = {**names, "channel": s.channel, "drop": f"{_drop(signals, name):.1f} dB"}
    if s.least_load:
        yield Reading("load-ohm", name, f"{s.channel} output", min(signals.load[name], 1e9), "ohm", "signal", limit=s.least_load, words=words)
    else:
        yield Reading("load-drop", name, f"{s.channel} output", _drop(signals, name), "dB", "signal", words=words)


def _pair(signals: Signals, source: str, listener: str, s: Source, l: Listener, names: Mapping[str, str]) -> Iterator[Reading]:
    gains = signals.gains[source, listener][0]  # nominal: (frequencies, home states)
    size = np.abs(gains)
    words, where = {**names, "channel": s.channel, "listener": l.channel}, f"{s.channel} to {l.channel}"
    pair = f"{source}>{listener}"
    yield Reading("polarity", pair, where, float((gains[MID].real / size[MID]).min()), "", "signal", words=words)
    if l.maximum and loudest(s):
        yield Reading("over-level", pair, where, decibels(loudest(s) * float(size[MID].max()) / l.maximum), "dB", "signal", words=words)
    if l.sensitivity and s.nominal:
        yield Reading("under-level", pair, where, -decibels(s.nominal * float(size[MID].min()) / l.sensitivity), "dB", "signal", words=words)
    own = np.abs(signals.open_output[source])
    for quantity, edge in (("treble", HIGH), ("bass", LOW)):
        change = float(((size[edge] / size[MID]) / (own[edge] / own[MID])).min())
        yield Reading(quantity, pair, where, decibels(change), "dB", "signal", words=words)


def _listener(signals: Signals, here: str, there: str, l: Listener, heard: Sequence[Source], device: Port, names: Mapping[str, str]) -> Iterator[Reading]:
    words = {**names, "listener": l.channel}
    if len(heard) > 1:
        gains = np.array([signals.gains[f"{here}/{s.id}", f"{there}/{l.id}"][0, MID] for s in heard])
        kept = np.abs(gains.sum(axis=0)) / np.abs(gains).sum(axis=0)
        yield Reading("mono-sum", f"{there}/{l.id}", l.channel, decibels(float(kept.min())), "dB", "signal", words=words)
    own = [s for s in heard if s.channel == l.channel]
    strangers = [s for s in device.sources if s.channel != l.channel] if any(s.channel == l.channel for s in device.sources) else []
    for s in strangers:
        stray = float(np.abs(signals.gains[f"{here}/{s.id}", f"{there}/{l.id}"][0, MID]).max())
        right = max((float(np.abs(signals.gains[f"{here}/{o.id}", f"{there}/{l.id}"][0, MID]).min()) for o in own), default=0.0)
        yield Reading("crossed", f"{here}/{s.id}>{l.id}", l.channel, min(decibels(stray) - decibels(right), decibels(stray) + 60), "dB", "signal", words={**words, "channel": s.channel})
    hum = signals.hum.get(f"{there}/{l.id}")
    if hum is not None and heard:
        balanced = l.balanced or any(s.balanced for s in heard)
        worst = float(np.abs(hum[:, :MID + 1]).max())
        yield Reading("hum-rejection", f"{there}/{l.id}", l.channel, min(-decibels(worst), 160.0), "dB", "signal", words=words, flags={"balanced": "yes" if balanced else "no"})


def _outputs(assembly: Assembly, signals: Signals) -> Iterator[Reading]:
    for name, amps in signals.forced.items():
        place, source = name.split("/", 1)
        channel = next(s.channel for s in assembly.ports[place].sources if s.id == source)
        yield Reading("forced-amps", name, f"{channel} output", amps, "A", "signal", words={"device": assembly.ports[place].name, "channel": channel})


def _screen(assembly: Assembly) -> Iterator[Reading]:
    if assembly.linked is None:
        return
    nets = assembly.circuit.nets
    pieces = [assembly.circuit.pieces(state, through_capacitors=False) for state in assembly.home]
    tied = all(piece[nets["from/chassis"]] == piece[nets["into/chassis"]] for piece in pieces)
    yield Reading("screen", "screen", "screen", 1.0 if tied else 0.0, "", "signal", words={"device": assembly.places["from"].name, "other": assembly.places["into"].name})
