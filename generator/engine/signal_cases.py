"""Find again the case that gave a signal reading: which landing, corner and frequency was the worst."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from .assemble import EARTHS, Assembly
from .bench import Bench
from .cases import TEST_AMPS, Case, probe_case, signal_case
from .circuit import resistive
from .hearing import HEARD, NO_PATH, SILENT, comparable, screen_ohms, shout
from .readings import Reading, channel_word
from .signal import FLOOR, HERTZ, HIGH, LOW, MID, decibels, kept_in_sum, loudest
from .solve import closed_array, most_at, solve_ac

MOST_DECIBELS = 160.0


def _size(case: Case) -> float:
    """What the meter of a case reads, V."""
    return float(abs(case.volts(*case.decides)))


def path(assembly: Assembly, reading: Reading) -> Case | None:
    """The best of all pairs, where its contacts land worst, without the capacitance of cables."""
    if reading.subject == "connection":
        return None
    bench, here = Bench(assembly), reading.subject
    there = "into" if here == "from" else "from"
    source, listener = max(_comparable(assembly, here, there), key=lambda pair: _least(bench, *pair))
    case = _quietest(bench, source, listener)
    return replace(case, number=decibels(_least(bench, source, listener)), terms=(("heard of 1 V", _size(case), "V"),))


def _comparable(assembly: Assembly, here: str, there: str) -> list[tuple[str, str]]:
    return [(f"{here}/{s.id}", f"{there}/{l.id}") for s, l in comparable(assembly.places[here], assembly.places[there])]


def _least(bench: Bench, source: str, listener: str) -> float:
    """From the solution of all drives together: what cancels to rounding must round alike."""
    return float(np.abs(bench.signals.bare[source, listener][MID]).min())


def _quietest(bench: Bench, source: str, listener: str) -> Case:
    [state] = most_at(-np.abs(bench.signals.bare[source, listener][MID]))
    return bench.case(source, state, bench.at(listener), bare=True)


def side(assembly: Assembly, reading: Reading) -> Case:
    """A channel against the best one."""
    bench, here = Bench(assembly), reading.subject.split("/")[0]
    there = "into" if here == "from" else "from"
    source, listener = _pair(reading, here, there)
    best = max(_least(bench, *pair) for pair in _comparable(assembly, here, there))
    case = _quietest(bench, source, listener)
    terms = (("heard of 1 V", _size(case), "V"), ("heard of the best channel", best, "V"))
    return replace(case, number=decibels(_least(bench, source, listener)) - decibels(best), terms=terms)


def _pair(reading: Reading, here: str, there: str) -> tuple[str, str]:
    source, listener = reading.subject.split(">")
    return source, listener if "/" in listener else f"{there}/{listener}"


def loaded(assembly: Assembly, reading: Reading) -> Case:
    """The smallest load an output sees, or what that costs."""
    bench, source = Bench(assembly), reading.subject
    nodes = bench.output(source)
    if reading.quantity == "load-drop":
        [state] = most_at(-np.abs(bench.signals.output[source][MID]))
        case, free = bench.case(source, state, nodes), float(abs(bench.signals.open_output[source][MID]))
        terms = (("at the output, nothing plugged", free, "V"), ("plugged", _size(case), "V"))
        return replace(case, number=decibels(free) - decibels(_size(case)), terms=terms)
    nothing = tuple(False for _ in bench.circuit.switches)
    every = closed_array([*assembly.home, nothing], len(bench.circuit.switches))
    found = solve_ac(bench.circuit, bench.values(bench.circuit)[None], [HERTZ[MID]], every, [{nodes: -1.0}])[0, 0, :, 0]
    ohm = found[:, bench.circuit.nets[nodes[0]]] - found[:, bench.circuit.nets[nodes[1]]]
    added = np.abs(1 / ohm[:-1] - 1 / ohm[-1])
    [state] = most_at(added)
    terms = (("impedance at the output, nothing plugged", float(abs(ohm[-1])), "ohm"), ("plugged", float(abs(ohm[state])), "ohm"))
    return replace(bench.case(source, state, nodes), number=min(float(1 / max(added[state], FLOOR)), NO_PATH), terms=terms)


def level(assembly: Assembly, reading: Reading) -> Case:
    """Too hot at full level, or too quiet at the usual one."""
    bench = Bench(assembly)
    source, listener = reading.subject.split(">")
    size = np.abs(bench.signals.gains[source, listener][0, MID])
    (_, s), (_, l) = bench.sources[source], bench.listeners[listener]
    hot = reading.quantity != "under-level"
    given = {"over-level": loudest, "shout-level": shout, "under-level": lambda s: s.nominal}[reading.quantity](s)
    case = bench.case(source, most_at(size if hot else -size)[0], bench.at(listener), level=given)
    against, words = (l.maximum, "the most the input takes") if hot else (l.sensitivity, "the least the input is made for")
    number = decibels(_size(case) / against) * (1 if hot else -1)
    return replace(case, number=number, terms=(("at the source, open", case.level, "V"), ("at the input", _size(case), "V"), (words, against, "V")))


def edge(assembly: Assembly, reading: Reading) -> Case:
    """Treble or bass against 1 kHz."""
    bench, at = Bench(assembly), LOW if reading.quantity == "bass" else HIGH
    source, listener = reading.subject.split(">")
    size = np.abs(bench.signals.gains[source, listener][0])
    case = bench.case(source, most_at(-size[at] / size[MID])[0], bench.at(listener), at)
    nets = case.circuit.nets
    one, two = (nets[node] for node in case.decides)
    heard, own = np.abs(case.spectrum[:, one] - case.spectrum[:, two]), np.abs(bench.signals.open_output[source])
    terms = ((f"heard of 1 V at {_hertz(at)}", float(heard[at]), "V"), (f"at {_hertz(MID)}", float(heard[MID]), "V"))
    return replace(case, number=decibels((heard[at] / heard[MID]) / (own[at] / own[MID])), terms=terms)


def _hertz(at: int) -> str:
    return ("20 Hz", "1 kHz", "20 kHz")[at]


def mono(assembly: Assembly, reading: Reading) -> Case:
    """What is left when every channel sends the same."""
    bench, listener = Bench(assembly), reading.subject
    names = _senders(bench, listener)
    gains = np.array([bench.signals.gains[name, listener][0, MID] for name in names])
    kept = kept_in_sum(gains)
    [state] = most_at(-kept)
    drive = {part: share for name in names for part, share in bench.drive(name).items()}
    place = names[0].split("/")[0]
    case = signal_case(bench.circuit, bench.values(bench.circuit), assembly.home[state], "nominal", drive, MID, bench.at(listener), source=place)
    alone = float(np.abs(gains[:, state]).sum())
    terms = (("heard with 1 V on every channel alike", _size(case), "V"), ("heard of each channel alone, added", alone, "V"))
    return replace(case, number=max(decibels(float(kept[state])), SILENT), terms=terms)


def sides(assembly: Assembly, reading: Reading) -> Case:
    """What is left of a source when all that hears it is summed; shown at the last of them."""
    bench = Bench(assembly)
    source, listeners = reading.subject.split(">")
    names = listeners.split("+")
    gains = np.array([bench.signals.gains[source, name][0, MID] for name in names])
    kept = kept_in_sum(gains)
    [state] = most_at(-kept)
    terms = tuple((f"heard of +1 V at {channel_word(bench.listeners[name][1].channel)}", float(gain.real), "V") for name, gain in zip(names, gains[:, state]))
    return replace(bench.case(source, state, bench.at(names[-1])), number=max(decibels(float(kept[state])), SILENT), terms=terms)


def _senders(bench: Bench, listener: str) -> list[str]:
    """The sources at the other side of a listener."""
    other = "from" if listener.startswith("into/") else "into"
    return [name for name, (place, _) in bench.sources.items() if place == other]


def polarity(assembly: Assembly, reading: Reading) -> Case:
    """The source that arrives least upside down; below zero means all do."""
    bench, listener = Bench(assembly), reading.subject
    found = []
    for name in _senders(bench, listener):
        gain = bench.signals.gains[name, listener][0, MID]
        turned = gain.real / np.maximum(np.abs(gain), 1e-300)
        found.append((float(turned.max()), name, most_at(turned)[0]))
    number, name, state = min(found, key=lambda one: abs(one[0] - reading.value))
    case = bench.case(name, state, bench.at(listener))
    heard = case.volts(*case.decides)
    return replace(case, number=float(heard.real / abs(heard)), terms=(("heard of +1 V", float(heard.real), "V"),))


def stray(assembly: Assembly, reading: Reading) -> Case:
    """A channel heard where another belongs."""
    bench = Bench(assembly)
    here = reading.subject.split("/")[0]
    source, listener = _pair(reading, here, "into" if here == "from" else "from")
    channel = bench.listeners[listener][1].channel
    case = bench.case(source, most_at(np.abs(bench.signals.gains[source, listener][0, MID]))[0], bench.at(listener))
    own = [float(np.abs(bench.signals.gains[name, listener][0, MID]).min()) for name in _senders(bench, listener) if bench.sources[name][1].channel == channel]
    right = min(own)
    terms = (("heard of 1 V of this channel", _size(case), "V"), ("heard of 1 V of the one that belongs there", right, "V"))
    return replace(case, number=decibels(_size(case)) - max(decibels(right), HEARD), terms=terms)


def hum(assembly: Assembly, reading: Reading) -> Case:
    """What a listener hears of 1 V between the two chassis."""
    bench, listener, linked = Bench(assembly), reading.subject, assembly.linked
    size = np.abs(bench.signals.hum[listener][:, :MID + 1])
    corner, at, state = most_at(size)
    name = bench.corners[corner]
    case = signal_case(linked, bench.values(linked, name), assembly.home[state], name, {EARTHS: 1.0}, at, bench.at(listener), source=EARTHS)
    return replace(case, number=min(-decibels(_size(case)), MOST_DECIBELS), terms=(("heard of 1 V between the chassis", _size(case), "V"),))


def screen(assembly: Assembly, reading: Reading) -> Case:
    """The resistance between the chassis, from a test current."""
    ohm, circuit, lean = screen_ohms(assembly), assembly.circuit, resistive(assembly.circuit)
    [state] = most_at(ohm)
    nodes = tuple(f"net{circuit.nets[f'{place}/chassis']}" for place in ("from", "into"))
    values = np.array([part.value.nominal for part in lean.parts])
    joined = ohm[state] < NO_PATH
    case = probe_case(lean, circuit, values, assembly.home[state], nodes, TEST_AMPS if joined else 0.0, float(ohm[state]), ())
    return case if not joined else replace(case, number=_size(case) / TEST_AMPS, terms=(("volts across at 1 mA", _size(case), "V"),))


FINDERS = {
    "path-gain": path, "side-gain": side, "load-ohm": loaded, "load-drop": loaded, "over-level": level, "shout-level": level, "under-level": level, "treble": edge, "pickup-treble": edge, "bass": edge,
    "mono-sum": mono, "sides-sum": sides, "polarity": polarity, "crosstalk": stray, "hum-rejection": hum, "screen-ohm": screen,
}
