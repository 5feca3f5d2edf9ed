"""What lies between the two chassis: the screen's resistance, how well the connection keeps a difference out,
and what hum that leaves."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from .assemble import EARTHS, Assembly
from .circuit import SIGNAL_OPENS, resistive
from .constants import BEST_REJECTION, HUM_FLOOR, MAINS, NO_PATH, VOICE
from .kinds import ONE_SIDED
from .pairing import Input, Output
from .readings import At, Named, Reading, channel_word
from .signal import HUM_HERTZ, MID, Signals, decibels, signal_corners
from .solve import closed_array, most_at, solve_ac
from .words import quantity


def hum_readings(signals: Signals, i: Input, heard: Sequence[Output]) -> Iterator[Reading]:
    """How well a listener is kept from a difference between the chassis, and how far below the wanted signal
    what is left of it lies, for every way the two may be powered."""
    balance = signals.balance.get(i.name)
    if balance is None:
        return
    corners, words = signal_corners(signals.assembly.circuit), {"sink": Named(i.place, i.listener.channel)}
    balanced = {"balanced": "yes" if i.listener.balanced or any(o.source.balanced for o in heard) else "no"}
    where = channel_word(i.listener.channel)
    corner, at, state = most_at(np.maximum(balance, 10 ** (-BEST_REJECTION / 20)))
    worst = float(balance[corner, at, state])
    yield Reading(
        "hum-rejection",
        i.name,
        where,
        min(-decibels(worst), BEST_REJECTION),
        "dB",
        "signal",
        words=words,
        flags=balanced,
        at=At(
            "hum",
            state,
            i.nodes,
            corners[corner],
            hertz=HUM_HERTZ[at],
            source=EARTHS,
            level=1 / float(signals.between[corner, at, state]),
        ),
        terms=(("heard of a volt between the chassis", worst, "V"),),
    )
    wanted = min((level for o in heard if (level := _wanted(signals, o, i))), default=None)
    if wanted is None:
        return
    found = []
    for number, (pair, volts) in enumerate(zip(signals.assembly.pairs, signals.hum[i.name])):
        told = np.maximum(volts, 10 ** (HUM_FLOOR / 20) * wanted)
        corner, state = most_at(told)
        left = float(told[corner, state])
        below = decibels(wanted) - decibels(left)
        found.append(
            (
                below,
                number,
                pair,
                left,
                At(
                    "hum",
                    state,
                    i.nodes,
                    corners[corner],
                    hertz=MAINS,
                    source=EARTHS,
                    level=pair.volts,
                    pair=number,
                ),
            )
        )
    least = min(below for below, *_ in found)
    for below, number, pair, left, at in found:
        flags = balanced | {"worst": "yes" if below == least else "no", "pair": pair.says}
        yield Reading(
            "hum-below",
            f"{i.name}@{number}",
            where,
            below,
            "dB",
            "signal",
            words={**words, "pair": pair.says, "hum": quantity(left, "V")},
            flags=flags,
            at=at,
            terms=(("wanted there", wanted, "V"), ("hum there", left, "V")),
        )


def _wanted(signals: Signals, o: Output, i: Input) -> float | None:
    """What is wanted at a listener, V rms: the nominal level, of a microphone a voice."""
    if not o.source.nominal:
        return None
    size = float(np.abs(signals.gains[o.name, i.name][0, MID]).min())
    return size * o.source.nominal * (10 ** (VOICE / 20) if o.source.kind == "microphone" else 1.0)


def screen_readings(assembly: Assembly) -> Iterator[Reading]:
    """The resistance between the two chassis: a screen has next to none, a detour through
    signal legs has kilohms."""
    kinds = [source.kind for place in ("from", "into") for source in assembly.places[place].sources]
    if assembly.linked is None or kinds and all(kind in ONE_SIDED for kind in kinds):
        return
    ohm = screen_ohms(assembly)
    [state] = most_at(ohm)
    nodes = tuple(f"net{assembly.circuit.nets[f'{place}/chassis']}" for place in ("from", "into"))
    joined = bool(ohm[state] < NO_PATH)
    yield Reading(
        "screen-ohm",
        "screen",
        "screen",
        float(ohm[state]),
        "ohm",
        "signal",
        words={"device": Named("from"), "other": Named("into")},
        flags={"isolated": "yes" if isolated(assembly) else "no"},
        at=At("test", state, nodes, level=float(joined)),
        terms=(("ohm", float(ohm[state]), "ohm"),) if joined else (),
    )


def isolated(assembly: Assembly) -> bool:
    """Does neither a resistance nor a capacitor lead from one chassis to the other, in any home state? The
    capacitance of cables left aside."""
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
