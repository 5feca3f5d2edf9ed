"""Signal readings: from solved signals to the numbers a listener would complain about."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from generator.catalogue.records import Lead, Listener, Port, Source

from .assemble import Assembly
from .direct import way_of
from .pad import pad_words
from .readings import MAIN, Named, Reading, channel_word
from .circuit import SIGNAL_OPENS, resistive
from .signal import HIGH, LOW, MID, Signals, decibels, kept_in_sum, loudest
from .solve import closed_array, solve_ac
from .words import quantity

AUDIO = ("microphone", "line", "instrument", "headphone", "loudspeaker")
SMALL = ("microphone", "line", "instrument")  # small enough for fields around the lead to matter
FAST = ("digital", "data", "video", "clock")
ONE_SIDED = ("midi", "power")  # kinds whose screen, if any, is tied at the sender only
NO_PATH = 1e9  # ohm
SILENT = -120.0  # dB; what a sum leaves below this is rounding
HEARD = -60.0  # dB; a path below this carries nothing
SHOUT = 10 ** (26 / 20)  # a voice shouting close by, 120 dB SPL, against the 94 dB SPL of a microphone's nominal level; from memory
BESIDE = -30.0  # dB; a channel this far below its neighbour is not there


def signal_readings(assembly: Assembly, signals: Signals) -> list[Reading]:
    """Readings in both directions between From and Into."""
    start, target = assembly.places["from"], assembly.places["into"]
    readings: list[Reading] = []
    for here, there, device, other in (("from", "into", start, target), ("into", "from", target, start)):
        if device.sources and other.listeners:
            readings += _direction(assembly, signals, here, there, device, other)
        elif device.sources and (other.sources or device.listeners):
            readings += [_unheard(source, here, there) for source in device.sources]
    if not (start.sources and target.listeners) and not (target.sources and start.listeners):
        words = {"device": Named("from"), "other": Named("into")}
        readings.append(Reading("path-gain", "connection", "connection", decibels(0), "dB", "signal", words=words, flags={"cause": "nothing"}))
    readings += _outputs(assembly, signals)
    readings += _screen(assembly)
    return readings


def wanted(sources: Sequence[Source], listeners: Sequence[Listener]) -> list[tuple[Source, Listener]]:
    """Which source should reach which listener: the same channel where both have it, else everything it meets."""
    source_channels, listener_channels = {s.channel for s in sources}, {l.channel for l in listeners}
    return [(s, l) for s in sources for l in listeners
            if s.channel == l.channel or (s.channel not in listener_channels and l.channel not in source_channels)]


def paired(device: Port, other: Port) -> list[tuple[Source, Listener]]:
    """What is asked about in one direction: the wanted pairs, or every pair where nothing belongs together."""
    return wanted(device.sources, other.listeners) or [(s, l) for s in device.sources for l in other.listeners]


def comparable(device: Port, other: Port) -> list[tuple[Source, Listener]]:
    """All pairs of one kind of signal: channels that have changed places are heard, if on the wrong side; the sound on a picture's input is not."""
    return [(s, l) for s in device.sources for l in other.listeners if _same_kind(s, l)]


def _direction(assembly: Assembly, signals: Signals, here: str, there: str, device: Port, other: Port) -> Iterator[Reading]:
    gain = {(s.id, l.id): float(np.abs(signals.bare[f"{here}/{s.id}", f"{there}/{l.id}"][MID]).min()) for s in device.sources for l in other.listeners}
    asked = paired(device, other)
    pairs = [pair for pair in asked if _same_kind(*pair)]
    # The picture beside the sound of an audio and video socket does no harm to a lead that leaves it where it is.
    apart = next(((s, l) for s, l in asked if not _same_kind(s, l) and (not pairs or decibels(gain[s.id, l.id]) > HEARD)), None)
    if apart:
        words = {"device": Named(here), "other": Named(there), "sent": apart[0].kind, "wanted": apart[1].kind}
        yield Reading("kinds-apart", here, "signal", 1.0, "", "signal", words=words, flags={"way": way_of(assembly, here)})
        return
    yield from _unsuited(assembly, here, there, pairs)
    best = decibels(max(gain[s.id, l.id] for s, l in comparable(device, other)))
    shorted = any(_drop(signals, f"{here}/{s.id}") > 40 for s in device.sources)
    yield Reading("path-gain", here, "connection", best, "dB", "signal", words={"device": Named(here), "other": Named(there)},
                  flags={"cause": "shorted" if shorted else "open", "way": way_of(assembly, here)})
    yield from (_unheard(s, here, there) for s in device.sources if all(s is not paired for paired, _ in pairs))
    if best < HEARD:
        return
    for s in device.sources:
        yield from _source(signals, here, s)
    heard = []
    for s, l in pairs:
        relative = decibels(gain[s.id, l.id]) - best
        words = {"source": Named(here, s.channel), "sink": Named(there, l.channel)}
        yield Reading("side-gain", f"{here}/{s.id}>{l.id}", _pair_words(s, l), relative, "dB", "signal", words=words)
        if relative > BESIDE:
            heard.append((s, l))
            yield from _pair(signals, f"{here}/{s.id}", f"{there}/{l.id}", s, l, words)
    for l in other.listeners:
        if any(decibels(gain[s.id, l.id]) > HEARD for s in device.sources):
            yield from _listener(signals, here, there, l, device.sources, [s for s, hearing in heard if hearing is l])
    for s in device.sources:
        yield from _sides(signals, here, there, s, [l for sender, l in heard if sender is s and l.kind != "digital"])


def _unsuited(assembly: Assembly, here: str, there: str, pairs: Sequence[tuple[Source, Listener]]) -> Iterator[Reading]:
    """What the circuit at audio frequencies does not show: leads that are not made for fast signals, amplifiers into small-signal inputs."""
    words = {"device": Named(here), "other": Named(there)}
    if any(s.kind in FAST for s, _ in pairs):
        for place, lead in assembly.places.items():
            if isinstance(lead, Lead):
                yield Reading("slow-lead", place, "lead", 0.0 if lead.impedance else 1.0, "", "signal", words={**words, "lead": Named(place)})
    if any(s.kind in SMALL and not (s.balanced and l.balanced) for s, l in pairs):
        for place, lead in assembly.places.items():
            if isinstance(lead, Lead):
                bare = bool(lead.cable) and not any(join.screen for join in lead.joins)
                yield Reading("bare-lead", place, "lead", float(bare), "", "signal", words={**words, "lead": Named(place)})
    if any(s.kind == "loudspeaker" and l.kind != "loudspeaker" for s, l in pairs):
        yield Reading("amplifier-into", here, "connection", 1.0, "", "signal", words=words)


def _same_kind(s: Source, l: Listener) -> bool:
    return _family(s.kind) == _family(l.kind)


def _family(kind: str) -> str:
    return "audio" if kind in AUDIO else kind


def _pair_words(s: Source, l: Listener) -> str:
    return " to ".join(dict.fromkeys((channel_word(s.channel), channel_word(l.channel))))


def _output_word(s: Source) -> str:
    return "output" if s.channel == MAIN else f"{s.channel} output"


def _unheard(source: Source, here: str, there: str) -> Reading:
    words = {"source": Named(here, source.channel), "other": Named(there)}
    return Reading("unheard", f"{here}/{source.id}", channel_word(source.channel), 1.0, "", "signal", words=words)


def _drop(signals: Signals, name: str) -> float:
    """Level lost at a source's own output because of what is plugged into it, dB at 1 kHz."""
    return decibels(signals.open_output[name][MID]) - decibels(float(np.abs(signals.output[name][MID]).min()))


def _source(signals: Signals, here: str, s: Source) -> Iterator[Reading]:
    name = f"{here}/{s.id}"
    words = {"source": Named(here, s.channel), "drop": quantity(_drop(signals, name), "dB")}
    where = _output_word(s)
    if s.least_load:
        yield Reading("load-ohm", name, where, min(signals.load[name], NO_PATH), "ohm", "signal", limit=s.least_load, words=words)
    else:
        yield Reading("load-drop", name, where, _drop(signals, name), "dB", "signal", words=words)


def _pair(signals: Signals, source: str, listener: str, s: Source, l: Listener, words: Mapping) -> Iterator[Reading]:
    size = np.abs(signals.gains[source, listener][0])  # nominal: (frequencies, home states)
    where, pair = _pair_words(s, l), f"{source}>{listener}"
    if l.maximum and loudest(s):
        over = decibels(loudest(s) * float(size[MID].max()) / l.maximum)
        yield Reading("over-level", pair, where, over, "dB", "signal", words={**words, "pad": pad_words(over), "stands": _stands(over)},
                      flags={"source": "microphone" if s.kind == "microphone" else "other"})
        if s.kind == "microphone" and s.nominal:
            shouted = decibels(shout(s) * float(size[MID].max()) / l.maximum)
            yield Reading("shout-level", pair, where, shouted, "dB", "signal", words={**words, "pad": pad_words(shouted)})
    if l.sensitivity and s.nominal:
        under = -decibels(s.nominal * float(size[MID].min()) / l.sensitivity)
        yield Reading("under-level", pair, where, under, "dB", "signal", words={**words, "stands": _stands(-under)})
    if s.kind in AUDIO and not (l.maximum and l.sensitivity and s.maximum and s.nominal):
        yield Reading("unknown-level", pair, where, 1.0, "", "signal", words=words)
    own = np.abs(signals.open_output[source])
    for quantity, edge in (("pickup-treble" if s.kind == "instrument" else "treble", HIGH), ("bass", LOW)):
        change = float(((size[edge] / size[MID]) / (own[edge] / own[MID])).min())
        yield Reading(quantity, pair, where, decibels(change), "dB", "signal", words=words)


def shout(source: Source) -> float:
    """What a voice shouting close by makes a microphone give, V rms: never more than it can."""
    return min(source.nominal * SHOUT, loudest(source))


def _stands(over: float) -> str:
    """`12 dB below`, `3 dB above`."""
    return f"{quantity(abs(over), 'dB')} {'above' if over > 0 else 'below'}"


def _sides(signals: Signals, here: str, there: str, s: Source, heard: Sequence[Listener]) -> Iterator[Reading]:
    """What is left of one source when everything that hears it at the other end is summed to mono."""
    if len(heard) < 2:
        return
    names = [f"{there}/{l.id}" for l in heard]
    kept = max(decibels(float(kept_in_sum(np.array([signals.gains[f"{here}/{s.id}", name][0, MID] for name in names])).min())), SILENT)
    words = {"source": Named(here, s.channel), "sink": Named(there), "sum": _falls(kept)}
    yield Reading("sides-sum", f"{here}/{s.id}>{'+'.join(names)}", " and ".join(channel_word(l.channel) for l in heard), kept, "dB", "signal", words=words)


def _falls(kept: float) -> str:
    """`drops by 12 dB`, `vanishes`."""
    return f"drops by {quantity(-kept, 'dB')}" if kept > HEARD else "vanishes"


def _listener(signals: Signals, here: str, there: str, l: Listener, sources: Sequence[Source], heard: Sequence[Source]) -> Iterator[Reading]:
    listener, words = f"{there}/{l.id}", {"sink": Named(there, l.channel)}
    gains = {s.id: signals.gains[f"{here}/{s.id}", listener][0, MID] for s in sources}
    if len(gains) > 1:
        kept = max(decibels(float(kept_in_sum(np.array(list(gains.values()))).min())), SILENT)
        yield Reading("mono-sum", listener, channel_word(l.channel), kept, "dB", "signal", words={**words, "sum": _falls(kept)})
    if heard and l.kind != "digital":  # its coding does not care
        yield _polarity(here, listener, l, heard, gains, words)
    own = [s for s in sources if s.channel == l.channel]
    if own:
        right = max(decibels(min(float(np.abs(gains[s.id]).min()) for s in own)), HEARD)
        for s in sources:
            if s.channel != l.channel:
                stray = decibels(float(np.abs(gains[s.id]).max())) - right
                yield Reading("crosstalk", f"{here}/{s.id}>{l.id}", channel_word(l.channel), stray, "dB", "signal", words={**words, "source": Named(here, s.channel)})
    hum = signals.hum.get(listener)
    if hum is not None:
        balanced = l.balanced or any(s.balanced for s in heard)
        worst = float(np.abs(hum[:, :MID + 1]).max())
        yield Reading("hum-rejection", listener, channel_word(l.channel), min(-decibels(worst), 160.0), "dB", "signal", words=words, flags={"balanced": "yes" if balanced else "no"})


def _polarity(here: str, listener: str, l: Listener, heard: Sequence[Source], gains: Mapping[str, np.ndarray], words: Mapping) -> Reading:
    """All that is heard upside down is reversed; one of several upside down is what the mono sum tells."""
    turned = max(float((gains[s.id].real / np.abs(gains[s.id])).max()) for s in heard)
    name = Named(here, heard[0].channel) if len(heard) == 1 else Named(here)
    return Reading("polarity", listener, channel_word(l.channel), turned, "", "signal", words={**words, "source": name})


def _outputs(assembly: Assembly, signals: Signals) -> Iterator[Reading]:
    for name, amps in signals.forced.items():
        place, source_id = name.split("/", 1)
        source = next(s for s in assembly.ports[place].sources if s.id == source_id)
        where, words = _output_word(source), {"source": Named(place, source.channel)}
        yield Reading("forced-amps", name, where, amps, "A", "signal", words=words)
        yield Reading("driven-amps", name, where, signals.driven[name], "A", "signal", words=words, flags={"kind": source.kind})


def _screen(assembly: Assembly) -> Iterator[Reading]:
    """The resistance between the two chassis: a screen has next to none, a detour through signal legs has kilohms."""
    kinds = [source.kind for place in ("from", "into") for source in assembly.places[place].sources]
    if assembly.linked is not None and not (kinds and all(kind in ONE_SIDED for kind in kinds)):
        words = {"device": Named("from"), "other": Named("into")}
        flags = {"isolated": "yes" if isolated(assembly) else "no"}
        yield Reading("screen-ohm", "screen", "screen", float(screen_ohms(assembly).max()), "ohm", "signal", words=words, flags=flags)


def isolated(assembly: Assembly) -> bool:
    """Does neither a resistance nor a capacitor lead from one chassis to the other, in any home state? The capacitance of cables left aside."""
    bare = assembly.bare
    pieces = bare.zeros(closed_array(assembly.home, len(bare.switches)), SIGNAL_OPENS)
    near, far = (bare.nets[f"{place}/chassis"] for place in ("from", "into"))
    return bool((pieces[:, near] != pieces[:, far]).all())


def screen_ohms(assembly: Assembly) -> np.ndarray:
    """Ohm between the chassis of From and Into in every home state; NO_PATH where nothing joins them."""
    lean = resistive(assembly.circuit)
    home = closed_array(assembly.home, len(lean.switches))
    near, far = (f"net{assembly.circuit.nets[f'{place}/chassis']}" for place in ("from", "into"))
    pieces = lean.zeros(home, SIGNAL_OPENS)
    values = np.array([[part.value.nominal for part in lean.parts]])
    volts = solve_ac(lean, values, [0.0], home, [{(near, far): -1.0}])[0, 0, :, 0]
    ohm = np.abs(volts[:, lean.nets[near]] - volts[:, lean.nets[far]])
    ohm[pieces[:, lean.nets[near]] != pieces[:, lean.nets[far]]] = NO_PATH
    return ohm
