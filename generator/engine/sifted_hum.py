"""What a difference between two chassis does through chains, all at once, and whether a screen joins the
two."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from .constants import BEST_REJECTION, GAIN_FLOOR, HUM_FLOOR, NO_PATH, VOICE
from .joined import limit, weigh
from .kinds import ONE_SIDED
from .pairing import Input, Output
from .powering import pairs as powerings
from .steps import DIRECT, HUM, TONE

if TYPE_CHECKING:
    from .sifting import Sifting

ROOM, SOME = 0.5, 0.03  # dB; of any other number
CERTAIN_JOINT, CERTAIN_LINK = 1e7, 1e9  # ohm, at a tone and at mains; below that two chassis are not isolated


def hum(sifting: Sifting, some: np.ndarray) -> np.ndarray:
    """What a difference between the two chassis leaves at an input that is to be balanced, and whether a
    screen joins them."""
    one, two = sifting.ends["from"], sifting.ends["into"]
    lost = np.zeros(len(some), dtype=int)
    if one.chassis is None or two.chassis is None:
        return lost
    a, b = one.chassis, sifting.spans["into"].start + two.chassis
    kinds = [source.kind for end in (one, two) for source in end.port.sources]
    if not all(kind in ONE_SIDED for kind in kinds):
        open_ = sifting.between(DIRECT, some, a, b) > limit("screen-open") * (1 + SOME)
        lost += weigh("screen-open", open_ & (sifting.between(TONE, some, a, b) < CERTAIN_JOINT))
    told = [i for i in sifting.heard if i.listener.balanced or any(o.source.balanced for o in sifting.sent)]
    hum = dict.fromkeys(told, np.zeros(len(some)))
    unbalanced, leaning = np.zeros(len(some), dtype=bool), np.zeros(len(some), dtype=bool)
    for number, pair in enumerate(powerings(one.port.powered_by, two.port.powered_by) if told else ()):
        for at in (HUM, TONE) if number == 0 else (HUM,):
            volts = sifting.driven(at, some, a, b, pair)
            between = np.maximum(np.abs(volts[:, a, 0] - volts[:, b, 0]), GAIN_FLOOR)
            for i in told:
                left = np.abs(sifting.shown(at, volts, i.place, i.listener.between, [("", 0)])[:, 0])
                if number == 0:
                    held = -20 * np.log10(np.maximum(left / between, 10 ** (-BEST_REJECTION / 20)))
                    leaning |= (
                        _balanced(sifting, i) & sifting.hears(i) & (held < limit("balance-lost") - ROOM)
                    )
                if at == HUM:
                    hum[i] = np.maximum(hum[i], left * pair.volts)
    for i in told:
        wanted = np.min(
            [_wanted(sifting, o, i) for o in sifting.sent] or [np.full(len(some), np.inf)], axis=0
        )
        left = np.maximum(hum[i], 10 ** (HUM_FLOOR / 20) * np.minimum(wanted, NO_PATH))
        below = 20 * np.log10(wanted / left)
        unbalanced |= _balanced(sifting, i) & sifting.hears(i) & (below < limit("unbalanced") - ROOM)
    # where nothing joins the two, what is found is what ties them here
    joined = sifting.between(HUM, some, a, b) < CERTAIN_LINK
    return lost + weigh("unbalanced", unbalanced & joined) + weigh("balance-lost", leaning & joined)


def _wanted(sifting: Sifting, o: Output, i: Input) -> np.ndarray:
    """What is wanted of a source at an input, V; without end where it is not heard there."""
    if (o, i) not in sifting.near or not o.source.nominal:
        return np.full(len(sifting.best), np.inf)
    voice = 10 ** (VOICE / 20) if o.source.kind == "microphone" else 1.0
    return np.where(sifting.near[o, i], sifting.size_of[o, i] * o.source.nominal * voice, np.inf)


def _balanced(sifting: Sifting, i: Input) -> np.ndarray:
    sent = [near for (o, other), near in sifting.near.items() if other is i and o.source.balanced]
    return np.any([np.full(len(sifting.best), i.listener.balanced), *sent], axis=0)
