"""Nodal sums written a second time: the circuit of a wiring boiled down to what its supplies, its charged capacitors and its bending parts do.

One dense system for each switch state and tolerance corner, solved for one volt of every supply, one volt in every large capacitor and one ampere
through every sink and clamp. Every supply setting, every charge and every region of the bends is then a sum of these columns.
Nothing hangs in the air: a hundred gigohms lead from each net to ground.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from islands import of_kind, piece_pairs, tied
from wiring import AIR, Wiring, worth

SEEP = 1e-7  # S through a clamp below its value: microamperes, as diodes leak; what hangs on a clamp alone follows it
HELD = 0.01  # ohm in series with a capacitor that holds its charge
ROUNDS, SIMULTANEOUS = 200, 20


class Unsettled(ArithmeticError):
    """No combination of regions of sinks and clamps fits."""


@dataclass(frozen=True)
class Sums:
    """The columns of one corner in some states. `supplies`, `capacitors` (none when they are open) and `bends` are the pieces behind them.
    `columns` (states, unknowns, columns) is per volt of a supply, per volt in a capacitor, per ampere that a bend draws beyond its first slope.
    `values` (pieces,) are the parts at this corner, `series` (capacitors,) ohm."""

    wired: Wiring
    values: np.ndarray
    supplies: tuple[int, ...]
    capacitors: tuple[int, ...]
    series: np.ndarray
    bends: tuple[int, ...]
    columns: np.ndarray

    states: np.ndarray | slice

    def across(self, pieces) -> tuple[np.ndarray, np.ndarray]:
        """The nets on the two sides of some pieces."""
        return tuple(piece_pairs(self.wired, pieces).T)

    def tied(self, gone: np.ndarray, pairs: np.ndarray) -> np.ndarray:
        """(states, pairs): can direct current flow between two nets while the supplies in `gone` are not there?"""
        opens = of_kind(self.wired, "capacitor") - set(self.capacitors) | {i for i, away in zip(self.supplies, gone) if away}
        return tied(self.wired, opens, self.states, pairs)


def boil(wired: Wiring, corner: str, states, series: np.ndarray | None = None) -> Sums:
    """The sums of a wiring at a corner in some states (numbers or a mask). Without `series` capacitors are open; with it (ohm, one for each large
    capacitor) they are sources of what they hold behind that resistance."""
    pieces = wired.pieces
    values = np.array([worth(piece.part, corner) for piece in pieces])
    supplies = tuple(i for i, piece in enumerate(pieces) if piece.part.kind == "emf" and piece.part.value.nominal)
    capacitors = wired.large if series is not None else ()
    bends = tuple(i for i, piece in enumerate(pieces) if piece.part.kind in ("sink", "clamp"))
    siemens = np.zeros(len(pieces))
    for i, piece in enumerate(pieces):
        if piece.part.kind in ("resistor", "sink"):
            siemens[i] = 1 / values[i] if piece.part.kind == "resistor" else values[i] / piece.part.knee
        elif piece.part.kind == "clamp":
            siemens[i] = SEEP
    if capacitors:
        siemens[list(capacitors)] = 1 / series
    right = np.zeros((wired.size, len(supplies) + len(capacitors) + len(bends)))
    for k, i in enumerate(supplies):
        right[wired.branch[i], k] = 1
    for k, i in enumerate((*capacitors, *bends), len(supplies)):
        amps = siemens[i] if i in capacitors else -1.0  # given to a, taken from b
        right[pieces[i].a, k] += amps
        right[pieces[i].b, k] -= amps
    matrix = wired.frame + (siemens @ wired.stamps).reshape(wired.size, wired.size)
    found = np.linalg.solve(matrix + wired.touching[states], right)
    return Sums(wired, values, supplies, capacitors, np.array([]) if series is None else series, bends, found, states)


def settle(sums: Sums, volts: np.ndarray, open_supplies: np.ndarray, held: np.ndarray | None = None) -> np.ndarray:
    """Unknowns (cases, states, size). `volts` (cases, supplies) is what each supply gives, `open_supplies` (supplies,) which are no longer there,
    `held` (cases, states, capacitors) what each capacitor holds."""
    columns, count = sums.columns, len(sums.supplies)
    gone = np.flatnonzero(open_supplies)
    if gone.size:  # whatever the others do, these carry nothing: their volts follow
        rows = [sums.wired.branch[sums.supplies[k]] for k in gone]
        own = columns[:, rows][:, :, gone] - 1e-3 * AIR * np.eye(gone.size)
        columns = columns - columns[:, :, gone] @ np.linalg.solve(own, columns[:, rows])
    driven = np.broadcast_to((volts * ~open_supplies)[:, None], (len(volts), len(columns), count))
    if held is not None:
        driven = np.concatenate([driven, np.broadcast_to(held, (len(volts), *held.shape[1:]))], axis=-1)
    found = np.einsum("snk,csk->csn", columns[:, :, :driven.shape[-1]], driven)
    return _bend(sums, found, columns[:, :, driven.shape[-1]:]) if sums.bends else found


def _bend(sums: Sums, found: np.ndarray, draws: np.ndarray) -> np.ndarray:
    """Add what each sink and clamp draws beyond its first slope. A sink's slope ends at its knee, where it draws its full current; a clamp draws
    nothing up to its value."""
    a, b = sums.across(sums.bends)
    parts = [sums.wired.pieces[i].part for i in sums.bends]
    full = sums.values[list(sums.bends)]
    sinks = np.array([part.kind == "sink" for part in parts])
    knee = np.array([part.knee if part.kind == "sink" else 0.0 for part in parts])
    ohm = np.array([part.series if part.kind == "clamp" else 1.0 for part in parts])
    at = np.where(sinks, knee, full)
    slope = np.where(sinks, -full / np.where(sinks, knee, 1.0), 1 / ohm - SEEP)
    still = np.where(sinks, full, full * (SEEP - 1 / ohm))
    free = found[..., a] - found[..., b]
    gives = draws[:, a] - draws[:, b]  # volts at each bend per ampere drawn by each
    volts, past = free.copy(), np.zeros(free.shape, dtype=bool)
    for turn in range(ROUNDS):
        # On the bend itself both regions give the same.
        off = (volts > at) != past
        off &= np.abs(volts - at) > 1e-9 * np.abs(at) + 1e-12
        if not off.any():
            drawn = past * (slope * volts + still)
            return found + np.einsum("snk,csk->csn", draws, drawn)
        if turn >= SIMULTANEOUS:  # one at a time, the first that is wrong: that comes to an end where all at once may go round
            off &= np.cumsum(off, axis=-1) == 1
        past = past ^ off
        case, state = np.nonzero(off.any(axis=-1))
        on, w = past[case, state], gives[state]
        system = np.eye(len(at)) - w * (on * slope)[:, None, :]
        volts[case, state] = np.linalg.solve(system, (free[case, state] + np.einsum("nij,nj->ni", w, on * still))[..., None])[..., 0]
    raise Unsettled(", ".join(sums.wired.pieces[i].id for i in sums.bends))
