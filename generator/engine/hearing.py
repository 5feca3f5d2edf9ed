"""Signal readings: from solved signals to the numbers a listener would complain about."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

import numpy as np

from .assembly import Assembly
from .chassis import screen_readings
from .constants import BESIDE, GAIN_FLOOR, HEARD, NO_PATH, SHORT_SHARE, SHORTED
from .currents import most_at
from .direct import way_of
from .kinds import AMPLIFIED, DIGITAL, TIMECODE, expected, said, same_kind
from .levels import level_readings, pair_words
from .listeners import listener_readings, summed, words_of
from .pairing import Input, Output, asked, comparable, inputs, matched, outputs, spilled
from .readings import MAIN, At, Named, Reading, channel_word
from .signal import MID, Signals, decibels
from .switches import sends, settings, switched_on
from .unsuited import amplifiers, unsuited
from .words import quantity

SIDES = (("from", "into"), ("into", "from"))


def signal_readings(assembly: Assembly, signals: Signals) -> Iterator[Reading]:
    """Readings in both directions between From and Into."""
    for here, there in SIDES:
        device, other = assembly.places[here], assembly.places[there]
        way = {"way": way_of(assembly, here)}
        if device.sources and other.listeners:
            found = (*_switched_off(assembly, here), *_direction(assembly, signals, here, there))
            yield from (replace(reading, flags={**reading.flags, **way}) for reading in found)
        elif device.sources and (other.sources or device.listeners):
            spare = here == "into"  # what was plugged in takes nothing, so nobody asked for it
            yield from (_unheard(Output(here, source), there, "forth", spare) for source in device.sources)
    start, target = assembly.places["from"], assembly.places["into"]
    if not (start.sources and target.listeners) and not (target.sources and start.listeners):
        words = {"device": Named("from"), "other": Named("into")}
        yield Reading(
            "path-gain",
            "connection",
            "connection",
            decibels(0),
            "dB",
            "signal",
            words=words,
            flags={"cause": "nothing"},
        )
    yield from amplifiers(assembly)
    yield from _stages(signals)
    yield from screen_readings(assembly)


def _switched_off(assembly: Assembly, here: str) -> Iterator[Reading]:
    """Sources that a setting turns off."""
    for number, setting in enumerate(settings(assembly.ports)):
        on = switched_on(assembly.ports, setting)
        for o in outputs(assembly, here):
            if not sends(on, o.place, o.source):
                words = {"device": Named(o.place)}
                yield Reading(
                    "source-off",
                    o.name,
                    channel_word(o.source.channel),
                    1.0,
                    "",
                    "signal",
                    number,
                    words=words,
                )


def _direction(assembly: Assembly, signals: Signals, here: str, there: str) -> Iterator[Reading]:
    sent, heard_by = outputs(assembly, here), inputs(assembly, there)
    gain = {
        (o.name, i.name): float(np.abs(signals.bare[o.name, i.name][MID]).min())
        for o in sent
        for i in heard_by
    }

    def arrives(o: Output, i: Input) -> bool:
        return decibels(gain[o.name, i.name]) > HEARD

    every = asked(sent, heard_by)
    beside = spilled(every, arrives)
    wanted = [pair for pair in every if pair not in beside]
    alike = comparable(sent, heard_by)
    same = [(o, i) for o, i in wanted if same_kind(o.source, i.listener)]
    pairs = [pair for pair in same if pair in alike] or same
    # The picture beside the sound of an audio and video socket does no harm to a lead that
    # leaves it where it is.
    apart = next(
        ((o, i) for o, i in wanted if not same_kind(o.source, i.listener) and (not pairs or arrives(o, i))),
        None,
    )
    if apart:
        words = {
            "device": Named(here),
            "other": Named(there),
            "sent": said(apart[0].source),
            "wanted": expected(apart[1].listener),
        }
        yield Reading("kinds-apart", here, "signal", 1.0, "", "signal", words=words)
        return
    yield from unsuited(assembly, here, there, pairs, any(arrives(o, i) for o, i in beside))
    loudest, listening = alike[most_at(np.maximum([gain[o.name, i.name] for o, i in alike], GAIN_FLOOR))[0]]
    best = decibels(gain[loudest.name, listening.name])
    size = np.abs(signals.bare[loudest.name, listening.name][MID])
    [state] = most_at(-np.maximum(size, GAIN_FLOOR))
    shorted = any(_shorted(signals, o) for o in sent)
    yield Reading(
        "path-gain",
        here,
        "connection",
        best,
        "dB",
        "signal",
        words={"device": Named(here), "other": Named(there)},
        flags={"cause": "shorted" if shorted else "open"},
        terms=(("heard of 1 V", float(size[state]), "V"),),
        at=At("signal", state, listening.nodes, source=loudest.name, bare=True),
    )
    yield from (_unheard(o, there) for o in sent if all(o is not other for other, _ in pairs))
    if best < HEARD:
        return
    for o in sent:
        yield from _output(signals, o)
    relative = {(o.name, i.name): decibels(gain[o.name, i.name]) - best for o, i in pairs}
    yield from _sides_of_pairs(
        signals, there, pairs, relative, best, len(assembly.group(here)) + len(assembly.group(there)) > 2
    )
    heard = [(o, i) for o, i in pairs if relative[o.name, i.name] > BESIDE]
    for o, i in heard:
        yield from level_readings(signals, o, i, words_of(o, i))
    for i in heard_by:
        if any(arrives(o, i) for o in sent):
            yield from listener_readings(signals, i, sent, [o for o, hearing in heard if hearing is i])
    for o in sent:
        yield from summed(
            signals, there, o, [i for sender, i in heard if sender is o and i.listener.kind != DIGITAL]
        )


def _sides_of_pairs(
    signals: Signals,
    there: str,
    pairs: Sequence[tuple[Output, Input]],
    relative: Mapping,
    best: float,
    several: bool,
) -> Iterator[Reading]:
    """Every channel against the best one. Where several devices share a lead, a channel without a partner of
    its name need not reach all of them: it has to reach one, and every input has to hear one. Timecode wants
    one track, and leaves the other to the sound."""
    pairs = [(o, i) for o, i in pairs if o.source.kind != TIMECODE]
    free = [(o, i) for o, i in pairs if several and not matched(o, i)]
    shown = [pair for pair in pairs if pair not in free]
    for side in (0, 1):
        for one in dict.fromkeys(pair[side] for pair in free):
            own = [pair for pair in free if pair[side] == one]
            shown.append(own[most_at(np.array([10 ** (relative[o.name, i.name] / 20) for o, i in own]))[0]])
    for o, i in dict.fromkeys(shown):
        size = np.abs(signals.bare[o.name, i.name][MID])
        [state] = most_at(-np.maximum(size, GAIN_FLOOR))
        terms = (
            ("heard of 1 V", float(size[state]), "V"),
            ("heard of the best channel", 10 ** (best / 20), "V"),
        )
        yield Reading(
            "side-gain",
            f"{o.name}>{i.name}",
            pair_words(o, i),
            relative[o.name, i.name],
            "dB",
            "signal",
            words=words_of(o, i),
            at=At("signal", state, i.nodes, source=o.name, bare=True),
            terms=terms,
        )


def _output_word(o: Output) -> str:
    return "output" if o.source.channel == MAIN else f"{o.source.channel} output"


def _unheard(o: Output, there: str, way: str = "", spare: bool = False) -> Reading:
    words = {"source": Named(o.place, o.source.channel), "other": Named(there)}
    flags = {**({"way": way} if way else {}), "spare": "yes" if spare else "no"}
    return Reading(
        "unheard", o.name, channel_word(o.source.channel), 1.0, "", "signal", words=words, flags=flags
    )


def _drop(signals: Signals, o: Output) -> float:
    """Level lost at a source's own output because of what is plugged into it, dB at 1 kHz."""
    return decibels(signals.open_output[o.name][MID]) - decibels(
        float(np.abs(signals.output[o.name][MID]).min())
    )


def _shorted(signals: Signals, o: Output) -> bool:
    """Is next to nothing left at the output, or does an amplifier see a small part of the
    least load it is made for?"""
    least = o.source.least_load if o.source.kind in AMPLIFIED else None
    return _drop(signals, o) > SHORTED or bool(least and signals.load[o.name].min() < SHORT_SHARE * least)


def _output(signals: Signals, o: Output) -> Iterator[Reading]:
    """The load an output sees against the least it is made for; where none is named, what it costs."""
    words, where = (
        {"source": Named(o.place, o.source.channel), "drop": quantity(_drop(signals, o), "dB")},
        _output_word(o),
    )
    nodes = tuple(f"{o.place}/{node}" for node in o.source.output)
    if o.source.least_load:
        load, (plugged, free) = signals.load[o.name], signals.loads[o.name]
        [state] = most_at(-load)
        terms = (
            ("impedance at the output, nothing plugged", free, "ohm"),
            ("plugged", float(plugged[state]), "ohm"),
        )
        yield Reading(
            "load-ohm",
            o.name,
            where,
            min(float(load[state]), NO_PATH),
            "ohm",
            "signal",
            limit=o.source.least_load,
            words=words,
            at=At("signal", state, nodes, source=o.name),
            terms=terms,
        )
    else:
        left, free = np.abs(signals.output[o.name][MID]), float(abs(signals.open_output[o.name][MID]))
        [state] = most_at(-np.maximum(left, GAIN_FLOOR))
        terms = ("at the output, nothing plugged", free, "V"), ("plugged", float(left[state]), "V")
        yield Reading(
            "load-drop",
            o.name,
            where,
            _drop(signals, o),
            "dB",
            "signal",
            words=words,
            at=At("signal", state, nodes, source=o.name),
            terms=terms,
        )


def _stages(signals: Signals) -> Iterator[Reading]:
    """The current through every output stage: its own at full level, and what the other
    outputs push into it."""
    names = list(signals.sources)
    for column, (name, (place, source)) in enumerate(signals.sources.items()):
        stages, amps = signals.stage_amps(name)
        if not amps.size:
            continue
        others = [k for k, (there, _) in enumerate(signals.sources.values()) if there != place]
        o = Output(place, source)
        for quantity_, counted, flags in (
            ("forced-amps", others, {}),
            ("driven-amps", [column], {"kind": source.kind}),
        ):
            total = amps[..., counted].sum(axis=-1)
            stage, corner, edge, state = most_at(total)
            shares, found = (
                amps[stage, corner, edge, state, counted],
                float(total[stage, corner, edge, state]),
            )
            main = counted[most_at(shares)[0]] if found else column
            yield Reading(
                quantity_,
                name,
                _output_word(o),
                found,
                "A",
                "signal",
                words={"source": Named(place, source.channel)},
                flags=flags,
                at=signals.stage_at(stages[stage], corner, edge, state, names[main]) if found else None,
                terms=tuple((f"from {names[k]}", float(share), "A") for k, share in zip(counted, shares))
                if len(counted) > 1
                else (),
            )
