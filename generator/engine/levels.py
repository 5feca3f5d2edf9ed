"""How loud it arrives, and how much treble and bass is left: readings of one source at one listener."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np

from generator.catalogue.records import Listener, Source

from .circuit import value_at
from .constants import HERTZ, PICKUP, SHOUT
from .currents import most_at
from .kinds import AUDIO, PHONES
from .pad import pad_words
from .pairing import Input, Output
from .readings import At, Reading, Term, channel_word
from .signal import HIGH, LOW, MID, Signals, decibels, drive_of, loudest
from .solve import closed_array, solve_ac
from .words import quantity


def pair_words(o: Output, i: Input) -> str:
    """`left to signal`, or one word where both are called alike."""
    return " to ".join(dict.fromkeys((channel_word(o.source.channel), channel_word(i.listener.channel))))


def level_readings(signals: Signals, o: Output, i: Input, words: Mapping) -> Iterator[Reading]:
    """Too hot, too quiet, treble and bass."""
    s, l = o.source, i.listener
    size = np.abs(signals.gains[o.name, i.name][0])  # nominal: (frequencies, states)
    where, pair = pair_words(o, i), f"{o.name}>{i.name}"

    def at(values: np.ndarray, level: float, hertz: float = HERTZ[MID]) -> At:
        return At("signal", most_at(values)[0], i.nodes, hertz=hertz, source=o.name, level=level)

    def terms(level: float, heard: float, against: float, what: str) -> tuple[Term, ...]:
        return ("at the source, open", level, "V"), ("at the input", level * heard, "V"), (what, against, "V")

    if l.maximum and loudest(s):
        most, at_most = float(size[MID].max()), "the most the input takes"
        over = decibels(loudest(s) * most / l.maximum)
        yield Reading(
            "over-level",
            pair,
            where,
            over,
            "dB",
            "signal",
            words={**words, "pad": pad_words(over), "stands": _stands(over)},
            flags={"source": _which(s, l)},
            at=at(size[MID], loudest(s)),
            terms=terms(loudest(s), most, l.maximum, at_most),
        )
        if s.kind == "microphone" and s.nominal:
            shouted = decibels(shout(s) * most / l.maximum)
            yield Reading(
                "shout-level",
                pair,
                where,
                shouted,
                "dB",
                "signal",
                words={**words, "pad": pad_words(shouted)},
                at=at(size[MID], shout(s)),
                terms=terms(shout(s), most, l.maximum, at_most),
            )
    if l.sensitivity and s.nominal:
        least = float(size[MID].min())
        under = -decibels(s.nominal * least / l.sensitivity)
        yield Reading(
            "under-level",
            pair,
            where,
            under,
            "dB",
            "signal",
            words={**words, "stands": _stands(-under)},
            at=at(-size[MID], s.nominal),
            terms=terms(s.nominal, least, l.sensitivity, "the least the input is made for"),
        )
    if s.kind in AUDIO and not (l.maximum and l.sensitivity and s.maximum and s.nominal):
        yield Reading("unknown-level", pair, where, 1.0, "", "signal", words=words)
    own = np.abs(signals.open_output[o.name])
    for quantity_, edge in (("treble", HIGH), ("bass", LOW)):
        if quantity_ == "treble" and s.kind == "instrument":
            yield _pickup(signals, o, i, where, pair, words)
            continue
        change = (size[edge] / size[MID]) / (own[edge] / own[MID])
        [state] = most_at(-change)
        heard = (
            (f"heard of 1 V at {quantity(HERTZ[edge], 'Hz')}", float(size[edge, state]), "V"),
            ("at 1 kHz", float(size[MID, state]), "V"),
        )
        yield Reading(
            quantity_,
            pair,
            where,
            decibels(float(change.min())),
            "dB",
            "signal",
            words=words,
            at=at(-change, 1.0, HERTZ[edge]),
            terms=heard,
        )


def _pickup(signals: Signals, o: Output, i: Input, where: str, pair: str, words: Mapping) -> Reading:
    """Treble where a pickup has any, against 1 kHz, plugged against unplugged."""
    assembly = signals.assembly
    circuit, nets = assembly.circuit, assembly.circuit.nets
    values = np.array([[value_at(part, "nominal") for part in circuit.parts]])
    states = closed_array([*assembly.settled, assembly.apart], len(circuit.switches))
    found = solve_ac(circuit, values, (HERTZ[MID], PICKUP), states, [drive_of(o.place, o.source)])[0, :, :, 0]
    across = lambda nodes: np.abs(found[..., nets[nodes[0]]] - found[..., nets[nodes[1]]])
    heard, own = (
        across(i.nodes)[:, :-1],
        across(tuple(f"{o.place}/{node}" for node in o.source.output))[:, -1],
    )
    change = (heard[1] / heard[0]) / (own[1] / own[0])
    [state] = most_at(-change)
    terms = (
        (f"heard of 1 V at {quantity(PICKUP, 'Hz')}", float(heard[1, state]), "V"),
        ("at 1 kHz", float(heard[0, state]), "V"),
    )
    return Reading(
        "pickup-treble",
        pair,
        where,
        decibels(float(change[state])),
        "dB",
        "signal",
        words=words,
        at=At("signal", state, i.nodes, hertz=PICKUP, source=o.name),
        terms=terms,
    )


def shout(source: Source) -> float:
    """What a voice shouting close by makes a microphone give, V rms: never more than it can."""
    return min(source.nominal * 10 ** (SHOUT / 20), loudest(source))


def _which(source: Source, listener: Listener) -> str:
    """Whose full level is loud: of a microphone in loud places, of phones at full volume, or any other's."""
    phones = source.kind == listener.kind == PHONES
    return "microphone" if source.kind == "microphone" else PHONES if phones else "other"


def _stands(over: float) -> str:
    """`12 dB below`, `3 dB above`."""
    return f"{quantity(abs(over), 'dB')} {'above' if over > 0 else 'below'}"
