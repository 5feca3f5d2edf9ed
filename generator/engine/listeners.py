"""Readings of what one listener hears: channels summed, upside down, or where another belongs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from .chassis import hum_readings
from .constants import GAIN_FLOOR, HEARD, SUM_FLOOR
from .currents import most_at
from .kinds import BITS, UNHUMMED, UNTURNED
from .pairing import Input, Output, matched
from .readings import At, Named, Reading, channel_word
from .signal import MID, Signals, decibels, kept_in_sum
from .words import quantity

NONE_LEFT = 10 ** (SUM_FLOOR / 20)


def words_of(o: Output, i: Input) -> dict[str, Named]:
    return {"source": Named(o.place, o.source.channel), "sink": Named(i.place, i.listener.channel)}


def summed(signals: Signals, there: str, o: Output, heard: Sequence[Input]) -> Iterator[Reading]:
    """What is left of one source when everything that hears it at the other end is summed to mono."""
    for place in dict.fromkeys(i.place for i in heard):
        here = [i for i in heard if i.place == place]
        if len(here) < 2:
            continue
        gains = np.array([signals.gains[o.name, i.name][0, MID] for i in here])
        kept = np.maximum(kept_in_sum(gains), NONE_LEFT)
        [state] = most_at(-kept)
        left = max(decibels(float(kept[state])), SUM_FLOOR)
        words = {"source": Named(o.place, o.source.channel), "sink": Named(place), "sum": _falls(left)}
        terms = tuple(
            (f"heard of +1 V at {channel_word(i.listener.channel)}", float(gain.real), "V")
            for i, gain in zip(here, gains[:, state])
        )
        yield Reading(
            "sides-sum",
            f"{o.name}>{'+'.join(i.name for i in here)}",
            " and ".join(channel_word(i.listener.channel) for i in here),
            left,
            "dB",
            "signal",
            words=words,
            at=At("signal", state, here[-1].nodes, source=o.name),
            terms=terms,
        )


def _falls(kept: float) -> str:
    """`drops by 12 dB`, `vanishes`."""
    return f"drops by {quantity(-kept, 'dB')}" if kept > HEARD else "vanishes"


def listener_readings(
    signals: Signals, i: Input, sent: Sequence[Output], heard: Sequence[Output]
) -> Iterator[Reading]:
    words, where = {"sink": Named(i.place, i.listener.channel)}, channel_word(i.listener.channel)
    gains = {o: signals.gains[o.name, i.name][0, MID] for o in sent}
    if len(gains) > 1:
        every = np.array(list(gains.values()))
        kept = np.maximum(kept_in_sum(every), NONE_LEFT)
        [state] = most_at(-kept)
        left = max(decibels(float(kept[state])), SUM_FLOOR)
        alike, alone = float(abs(every[:, state].sum())), float(np.abs(every[:, state]).sum())
        yield Reading(
            "mono-sum",
            i.name,
            where,
            left,
            "dB",
            "signal",
            words={**words, "sum": _falls(left)},
            at=At("signal", state, i.nodes, source=sent[0].place),
            terms=(
                ("heard with 1 V on every channel alike", alike, "V"),
                ("heard of each channel alone, added", alone, "V"),
            ),
        )
    if heard and i.listener.kind not in UNTURNED:
        yield from _polarity(signals, i, heard, gains, words)
    yield from _strays(i, sent, gains)
    if i.listener.kind not in UNHUMMED:
        yield from hum_readings(signals, i, heard)


def _polarity(
    signals: Signals, i: Input, heard: Sequence[Output], gains: Mapping, words: Mapping
) -> Iterator[Reading]:
    """All that is heard upside down is reversed, where the plug lands worst; one of several upside down is
    what the mono sum tells. A plug that goes in two ways round is told of apart: a person sees its marks."""
    turned = np.array(signals.assembly.turned * (2 if signals.assembly.joined else 1))
    name = Named(heard[0].place, heard[0].source.channel) if len(heard) == 1 else Named(heard[0].place)
    for quantity_, states in (
        ("polarity", np.flatnonzero(~turned)),
        ("polarity-turned", np.flatnonzero(turned)),
    ):
        if not states.size:
            continue
        worst = []
        for o in heard:
            real = gains[o].real[states] / np.abs(gains[o])[states]
            at = most_at(-real)[0]
            worst.append((float(real[at]), o, int(states[at])))
        value, o, state = worst[most_at(np.array([one[0] for one in worst]))[0]]
        yield Reading(
            quantity_,
            i.name,
            channel_word(i.listener.channel),
            value,
            "",
            "signal",
            words={**words, "source": name},
            flags={"bits": "yes" if i.listener.kind in BITS else "no"},
            at=At("signal", state, i.nodes, source=o.name),
            terms=(("heard of +1 V", float(gains[o][state].real), "V"),),
        )


def _strays(i: Input, sent: Sequence[Output], gains: Mapping) -> Iterator[Reading]:
    """Channels heard where another belongs."""
    own = [o for o in sent if matched(o, i)]
    if not own:
        return
    belongs = min(float(np.abs(gains[o]).min()) for o in own)
    for o in sent:
        if not matched(o, i):
            size = np.abs(gains[o])
            [state] = most_at(np.maximum(size, GAIN_FLOOR))
            terms = (
                ("heard of 1 V of this channel", float(size[state]), "V"),
                ("heard of 1 V of the one that belongs there", belongs, "V"),
            )
            yield Reading(
                "crosstalk",
                f"{o.name}>{i.name}",
                channel_word(i.listener.channel),
                decibels(float(size[state])) - max(decibels(belongs), HEARD),
                "dB",
                "signal",
                words=words_of(o, i),
                at=At("signal", state, i.nodes, source=o.name),
                terms=terms,
            )
